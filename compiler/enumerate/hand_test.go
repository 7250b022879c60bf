package enumerate

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The enumerator is held here against small examples worked by hand.

func one(vals ...int) cond { return cond{form: "list", spans: singles(vals)} }

func but(vals ...int) cond { return cond{form: "not", spans: singles(vals)} }

// TestConditionTable is the table of conditions for a trait with values 0 to
// 3, written once more as plain sets: which of 0, 1, 2, 3, never are in.
func TestConditionTable(t *testing.T) {
	for _, row := range []struct {
		name                 string
		cond                 cond
		inVehicles, anywhere []int
	}{
		{"blank", cond{}, []int{never}, []int{0, 1, 2, 3, never}},
		{"any", cond{form: "any"}, []int{0, 1, 2, 3}, []int{0, 1, 2, 3, never}},
		{"A, B", one(0, 1), []int{0, 1}, []int{0, 1}},
		{"not A, B", but(0, 1), []int{2, 3}, []int{2, 3, never}},
		{"from C", cond{form: "from", spans: [][2]int{{2, 3}}}, []int{2, 3}, []int{2, 3}},
		{"to B", cond{form: "to", spans: [][2]int{{0, 1}}}, []int{0, 1}, []int{0, 1}},
		{"n/a", one(never), []int{never}, []int{never}},
		{"A, n/a", one(0, never), []int{0, never}, []int{0, never}},
		{"not A, n/a", but(0, never), []int{1, 2, 3}, []int{1, 2, 3}},
	} {
		var held, met []int
		for _, v := range []int{0, 1, 2, 3, never} {
			if row.cond.holds(v) {
				held = append(held, v)
			}
			if row.cond.meets(v) {
				met = append(met, v)
			}
		}
		assert.Equal(t, row.inVehicles, held, "%s in Vehicles", row.name)
		assert.Equal(t, row.anywhere, met, "%s elsewhere", row.name)
	}
}

// TestSpellings wants every spelling to be one of a kind, and the magnitudes
// in order: 6.35, 7.9375, 8, 9.525, 10, 12.7, 16, 31.75 mm (1 in = 25.4 mm, NIST SP
// 811, App. B.8).
func TestSpellings(t *testing.T) {
	var mm []string
	seen := map[string]bool{}
	for _, s := range append(spellings(), hoses()...) {
		mm = append(mm, s.size.mm.FloatString(3))
		for _, way := range s.ways {
			assert.False(t, seen[way], way)
			seen[way] = true
		}
	}
	assert.Equal(t, []string{"6.350", "7.938", "8.000", "9.525", "10.000", "12.700", "16.000", "31.750", "9.525", "12.700"}, mm)
	tube, hose := spellings()[3].size, hoses()[0].size
	assert.False(t, tube.equal(hose), "a tube and a hose never match")
}

// small is two years of one platform (2001, 2002) and of another (2002), and
// a trait with values a, b.
func small() *catalogue {
	return &catalogue{
		platforms: []platform{{"P", [][2]int{{2001, 2002}}}, {"Q", [][2]int{{2002, 2002}}}},
		traits:    []trait{{name: "T", kind: "choice", values: []value{{name: "a"}, {name: "b"}}}},
	}
}

func (c *catalogue) addVehicle(road float64, p, years, t cond) {
	c.vehicles = append(c.vehicles, &vehicle{row: newRow(), conds: conds{p, years, []cond{t}}, road: road})
}

// TestWorldsByHand: row 1 is P and Q, all years, a or b, 60 on the road. It
// holds P 2001 a, P 2001 b, P 2002 a, P 2002 b, Q 2002 a, Q 2002 b: six, 10
// each. Row 2 is P, 2002, blank: P 2002 n/a, 7 on the road. Row 3 is P, 2001
// and 1990, `not b`: P 2001 a once more, 5 more on it.
// P has 5 configurations with 4 x 10 + 7 + 5 = 52, Q has 2 with 20.
func TestWorldsByHand(t *testing.T) {
	c := small()
	c.addVehicle(60, cond{form: "any"}, cond{}, one(0, 1))
	c.addVehicle(7, one(0), cond{form: "list", spans: [][2]int{{2002, 2002}}}, cond{})
	c.addVehicle(5, one(0), cond{form: "list", spans: [][2]int{{1990, 1990}, {2001, 2001}}}, but(1))
	w := c.worlds()
	require.Len(t, w, 2)
	var shown []string
	for _, g := range w[0].configs {
		shown = append(shown, c.show(g))
	}
	assert.Equal(t, []string{"2001, T=a", "2001, T=b", "2002, T=a", "2002, T=b", "2002, T=n/a"}, shown)
	assert.Equal(t, []float64{15, 10, 10, 10, 7}, w[0].road)
	assert.InDelta(t, 52, w[0].share(count(5)), 1e-12)
	assert.InDelta(t, 20, w[1].share(count(2)), 1e-12)
}

func (c *catalogue) addFit(name string, precedence int, t cond, st *statement) {
	r := newRow()
	r.at["D"], r.first = ref{"f.xlsx", "Fitment", "B" + name}, ref{"f.xlsx", "Fitment", "A" + name}
	c.fits = append(c.fits, &fit{row: r, conds: conds{cond{form: "any"}, cond{}, []cond{t}},
		precedence: precedence, says: map[int]*statement{0: st}, columns: map[int]string{0: "D"}, notes: []string{""}})
}

func parts(alts ...[]item) *statement { return &statement{kind: "parts", alts: alts} }

// fitted is small with all of P's five thinkable configurations but 2001 n/a,
// and one position of quantity 2 where T is not b: 2001 a, 2002 a, 2002 n/a.
func fitted() *catalogue {
	c := small()
	c.addVehicle(50, one(0), cond{}, one(0, 1))
	c.addVehicle(7, one(0), cond{form: "list", spans: [][2]int{{2002, 2002}}}, cond{})
	c.parts = []*part{
		{row: newRow(), name: "A", status: "current", family: "F"},
		{row: newRow(), name: "B", status: "current"},
	}
	c.kits = []*kit{{name: "K", items: []item{{"A", 3}}}}
	c.positions = []*position{{name: "D", coverage: "required", rows: []*place{
		{row: newRow(), conds: conds{cond{}, cond{}, []cond{but(1)}}, quantity: 2, air: -1},
	}}}
	return c
}

// TestSayByHand: at quantity 2, `A` is 2 x A, as are `A + A` and `2 x A`;
// `A + B` is one of each in either order; `K` is one kit.
func TestSayByHand(t *testing.T) {
	c := fitted()
	alone := c.say(parts([]item{{"A", 0}}), 2)
	assert.Equal(t, "2 x A", alone)
	assert.Equal(t, alone, c.say(parts([]item{{"A", 0}, {"A", 0}}), 2))
	assert.Equal(t, alone, c.say(parts([]item{{"A", 2}}), 7))
	assert.Equal(t, "1 x A & 1 x B", c.say(parts([]item{{"B", 0}, {"A", 0}}), 2))
	assert.Equal(t, "1 x K", c.say(parts([]item{{"K", 0}}), 2))
	assert.Equal(t, "2 x B | 2 x A", c.say(parts([]item{{"B", 0}}, []item{{"A", 0}}), 2))
	assert.Equal(t, []string{"A", "B", "K"}, c.offered(parts([]item{{"K", 1}}, []item{{"B", 1}})))
}

// TestFindingsByHand: row 1, precedence 1, where T is a: `A`. Row 2, the same
// precedence, where T is a or n/a: `2 x A or B`. Row 3, precedence 0, any:
// planned. So 2001 a and 2002 a are a conflict of rows 1 and 2, 2002 n/a is
// fitted by row 2, and planned decides nowhere. A rule that forbids family F
// where T is n/a hits row 2 in one configuration. On the road: 50 / 4 = 12.5
// for each a, 7 for n/a.
func TestFindingsByHand(t *testing.T) {
	c := fitted()
	c.addFit("2", 1, one(0), parts([]item{{"A", 0}}))
	c.addFit("3", 1, one(0, never), parts([]item{{"A", 2}}, []item{{"B", 0}}))
	c.addFit("4", 0, cond{}, &statement{kind: "planned"})
	c.rules = []*rule{{row: newRow(), family: "F", conds: conds{cond{}, cond{}, []cond{one(never)}}}}
	c.rules[0].first = ref{"f.xlsx", "Compatibility", "B2"}
	o := c.enumerate()
	conflict := o.findings[key{"fitment-conflict", "P", "D", "f.xlsx:Fitment!B2 & f.xlsx:Fitment!B3"}]
	forbidden := o.findings[key{"part-forbidden", "P", "D", "f.xlsx:Compatibility!2 & f.xlsx:Fitment!B3 & A"}]
	require.Len(t, o.findings, 2)
	require.NotNil(t, conflict)
	require.NotNil(t, forbidden)
	w := o.worlds[0]
	require.Len(t, w.configs, 5)
	assert.Equal(t, []int{0, 2}, conflict.set)
	assert.InDelta(t, 25, w.share(conflict.set), 1e-12)
	assert.Equal(t, []int{4}, forbidden.set)
	assert.Equal(t, []string{"A"}, forbidden.parts)
	assert.InDelta(t, 7, w.share(forbidden.set), 1e-12)
	var told []string
	for _, all := range o.verdicts[w] {
		told = append(told, all[0].outcome)
	}
	assert.Equal(t, []string{"conflict", "", "conflict", "", "fitted"}, told)
}

// TestAcceptedByHand: of a conflict in 2001 a and 2002 a, a row that accepts
// 2002 leaves 2001.
func TestAcceptedByHand(t *testing.T) {
	c := fitted()
	c.addFit("2", 0, one(0), parts([]item{{"A", 0}}))
	c.addFit("3", 0, one(0), &statement{kind: "none"})
	c.addFit("4", 0, one(never), &statement{kind: "ask"})
	late := conds{cond{}, cond{form: "list", spans: [][2]int{{2002, last}}}, []cond{{}}}
	c.accepts = []*accept{
		{row: newRow(), conds: late, code: "fitment-conflict"},
		{row: newRow(), conds: late, code: "coverage-gap"},
		{row: newRow(), conds: late, code: "coverage-ask", position: "E"},
		{row: newRow(), conds: late, code: "coverage-ask", expired: true},
	}
	o := c.enumerate()
	require.Len(t, o.findings, 2)
	for id, e := range o.findings {
		got := c.split(e)
		switch id.code {
		case "fitment-conflict":
			assert.Equal(t, []int{0}, got.open)
			assert.Equal(t, map[*accept][]int{c.accepts[0]: {2}}, got.accepted)
		case "coverage-ask":
			assert.Equal(t, []int{4}, got.open)
			assert.Empty(t, got.accepted)
		}
	}
	assert.Equal(t, map[*accept]bool{c.accepts[1]: true, c.accepts[2]: true}, c.idle(o))
}

// TestMismatchByHand: the air line is 1/4 in where T is a and 3/8 in where it
// is b. A part of 6.35 mm (1/4 in x 25.4, NIST SP 811, App. B.8) fits a only;
// where T does not apply it does not fit either; a part without a size fits.
func TestMismatchByHand(t *testing.T) {
	c := fitted()
	quarter, eighths := size{mm: inch(1, 4)}, size{mm: inch(3, 8)}
	c.traits[0].kind = "size"
	c.traits[0].values = []value{{name: "1/4 in", size: &quarter}, {name: "3/8 in", size: &eighths}}
	c.parts[0].line = &quarter
	in := func(v int) config { return config{year: 2001, vals: [maxTraits]int{v}} }
	kit := parts([]item{{"K", 1}}, []item{{"B", 1}})
	assert.Empty(t, c.mismatched(kit, 0, in(0)))
	assert.Equal(t, c.parts[:1], c.mismatched(kit, 0, in(1)))
	assert.Equal(t, c.parts[:1], c.mismatched(kit, 0, in(never)))
	assert.Empty(t, c.mismatched(kit, -1, in(1)))
	assert.Empty(t, c.mismatched(parts([]item{{"B", 1}}), 0, in(1)))
}

// TestBoxesByHand: a trait that a box does not name is any, null is 'does not
// apply', and no years are all years.
func TestBoxesByHand(t *testing.T) {
	c := small()
	a := "a"
	g := func(year, v int) config { return config{year: year, vals: [maxTraits]int{v}} }
	all := box{}
	first := box{Years: [][2]int{{2001, 2001}}, Traits: map[string]inBox{"T": {&a, nil}}}
	assert.True(t, c.holds(all, g(2002, never)))
	assert.True(t, c.holds(first, g(2001, 0)))
	assert.True(t, c.holds(first, g(2001, never)))
	assert.False(t, c.holds(first, g(2001, 1)))
	assert.False(t, c.holds(first, g(2002, 0)))
	assert.True(t, c.overlap(0, all, first))
	assert.False(t, c.overlap(1, all, first), "the second platform has no 2001")
	b := "b"
	assert.False(t, c.overlap(0, first, box{Traits: map[string]inBox{"T": {&b}}}))
}
