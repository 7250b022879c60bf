package enumerate

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// alone is fitted without its second platform: 2001 a, 2001 b, 2002 a, 2002 b
// and 2002 n/a exist, numbered so from 0, and position D where T is not b.
func alone() *catalogue {
	c := fitted()
	c.platforms = c.platforms[:1]
	return c
}

// also gives row n of the fitment sheet a cell at the second position, E,
// which exists everywhere.
func (c *catalogue) also(n string, st *statement) {
	if len(c.positions) == 1 {
		c.positions = append(c.positions, &position{name: "E", coverage: "required", rows: []*place{
			{row: newRow(), conds: conds{cond{}, cond{}, []cond{{}}}, quantity: 1, air: -1},
		}})
	}
	for _, f := range c.fits {
		f.notes = []string{"", ""}
		if f.first.Cell == "A"+n {
			f.says[1], f.columns[1] = st, "E"
			f.at["E"] = ref{"f.xlsx", "Fitment", "C" + n}
		}
	}
}

func (c *catalogue) addRule(effect, part, family, with string) {
	r := &rule{row: newRow(), part: part, family: family, with: with, effect: effect, idle: true, conds: conds{cond{}, cond{}, []cond{{}}}}
	r.at["Part"], r.at["Family"] = ref{"f.xlsx", "Compatibility", "A2"}, ref{"f.xlsx", "Compatibility", "B2"}
	c.rules = append(c.rules, r)
}

// sets gives the sets of the findings of a code, by the cells of their keys.
func (o *outlook) sets(code string) map[string][]int {
	out := map[string][]int{}
	for id, e := range o.findings {
		if id.code == code {
			out[id.position+" "+id.cells] = e.set
		}
	}
	return out
}

// TestCompanyByHand: D says `K or B` where T is a (K holds A, of family F),
// and E says B in 2002. A requires B: it is in another alternative of its own
// cell, and nothing is missing. A forbids B: the alternatives are never fitted
// together, but E has it in 2002 a, number 2. Family F requires C, which is
// nowhere: missing in 0 and 2. B forbids B: a part is no company of its own.
func TestCompanyByHand(t *testing.T) {
	for _, try := range []struct {
		effect, part, family, with string
		missing, forbidden         map[string][]int
	}{
		{"require", "A", "", "B", map[string][]int{}, map[string][]int{}},
		{"forbid", "A", "", "B", map[string][]int{}, map[string][]int{"D f.xlsx:Compatibility!A2 & f.xlsx:Fitment!B2 & A": {2}}},
		{"require", "", "F", "C", map[string][]int{"D f.xlsx:Compatibility!B2 & f.xlsx:Fitment!B2 & A": {0, 2}}, map[string][]int{}},
		{"forbid", "B", "", "B", map[string][]int{}, map[string][]int{}},
		{"forbid", "K", "", "A", map[string][]int{}, map[string][]int{"D f.xlsx:Compatibility!A2 & f.xlsx:Fitment!B2 & K": {0, 2}}},
	} {
		c := alone()
		c.addFit("2", 0, one(0), parts([]item{{"K", 0}}, []item{{"B", 0}}))
		c.addFit("3", 0, cond{}, nil)
		delete(c.fits[1].says, 0)
		c.fits[1].years = cond{form: "list", spans: [][2]int{{2002, 2002}}}
		c.also("3", parts([]item{{"B", 0}}))
		c.addRule(try.effect, try.part, try.family, try.with)
		o := c.enumerate()
		assert.Equal(t, try.missing, o.sets("companion-missing"), "%v", try)
		assert.Equal(t, try.forbidden, o.sets("companion-forbidden"), "%v", try)
	}
}

// TestOverlapByHand: 50 on the road in the first row of fitted, and of the two
// rows added one says 3 for 2002 a and one says nothing for all: 2002 a,
// number 2, is counted twice.
func TestOverlapByHand(t *testing.T) {
	c := alone()
	c.addVehicle(3, one(0), cond{form: "list", spans: [][2]int{{2002, 2002}}}, one(0))
	c.addVehicle(0, one(0), cond{}, cond{form: "any"})
	for i, v := range c.vehicles[:3] {
		v.cells["On the road"] = v.road
		v.at["On the road"] = ref{"f.xlsx", "Vehicles", "F" + string(rune('2'+i))}
	}
	assert.Equal(t, map[string][]int{" f.xlsx:Vehicles!F2 & f.xlsx:Vehicles!F4": {2}}, c.enumerate().sets("vehicles-overlap"))
}

// TestThinByHand: A is superseded, and K holds it. `K or A` is thin, `A or B`
// and `with E` are not, and neither is `A` where another cell says B.
func TestThinByHand(t *testing.T) {
	a, k, b := []item{{"A", 0}}, []item{{"K", 0}}, []item{{"B", 0}}
	for _, try := range []struct {
		says []*statement
		want map[string][]int
	}{
		{[]*statement{parts(k, a)}, map[string][]int{"D ": {0, 2}}},
		{[]*statement{parts(a, b)}, map[string][]int{}},
		{[]*statement{{kind: "with", with: 0}}, map[string][]int{}},
		{[]*statement{parts(a), parts(b)}, map[string][]int{}},
		{[]*statement{parts(append(a, b...))}, map[string][]int{"D ": {0, 2}}},
	} {
		c := alone()
		c.parts[0].status = "superseded"
		for i, st := range try.says {
			c.addFit(string(rune('2'+i)), 0, one(0), st)
		}
		assert.Equal(t, try.want, c.enumerate().sets("coverage-thin"))
	}
}

// TestAlikeByHand: at E, A where T is a, none where it is b, ask where it does
// not apply. In each year a and b differ and look alike unless T is told; n/a
// needs nothing. Where a and b say the same, nothing needs to be told.
func TestAlikeByHand(t *testing.T) {
	for _, try := range []struct {
		other *statement
		told  map[int]bool
		want  map[string][]int
	}{
		{&statement{kind: "none"}, nil, map[string][]int{"E ": {0, 1, 2, 3}}},
		{&statement{kind: "none"}, map[int]bool{1: true}, map[string][]int{"E ": {0, 1, 2, 3}}},
		{&statement{kind: "none"}, map[int]bool{0: true}, map[string][]int{}},
		{&statement{kind: "none"}, map[int]bool{-1: true}, map[string][]int{}},
		{&statement{kind: "planned"}, nil, map[string][]int{}},
		{parts([]item{{"A", 1}}), nil, map[string][]int{}},
	} {
		c := alone()
		for i, v := range []int{0, 1, never} {
			c.addFit(string(rune('2'+i)), 0, one(v), nil)
			delete(c.fits[i].says, 0)
		}
		c.also("2", parts([]item{{"A", 0}}))
		c.also("3", try.other)
		c.also("4", &statement{kind: "ask"})
		c.traits[0].told = try.told
		assert.Equal(t, try.want, c.enumerate().sets("indistinguishable"))
	}
}

// TestRedundantByHand: A in any (row 2), A where T is a (3), 2 x A where it is
// n/a (4), all of precedence 0; none where T is a (5) of precedence 1. Where T
// is a row 5 decides; where it is n/a rows 2 and 4 say the same. Row 3 and one
// of 2 and 4 can be emptied; not both of these, nor 5.
func TestRedundantByHand(t *testing.T) {
	c := alone()
	c.addFit("2", 0, cond{}, parts([]item{{"A", 0}}))
	c.addFit("3", 0, one(0), parts([]item{{"A", 0}}))
	c.addFit("4", 0, one(never), parts([]item{{"A", 2}}))
	c.addFit("5", 1, one(0), &statement{kind: "none"})
	o := c.enumerate()
	at := func(n string) ref { return ref{"f.xlsx", "Fitment", "B" + n} }
	assert.Equal(t, []ref{at("2"), at("3"), at("4")}, c.idleSpots(o))
	for _, try := range []struct {
		told []string
		ok   bool
	}{
		{[]string{"3", "4"}, true},
		{[]string{"2", "3"}, true},
		{[]string{"3"}, false},
		{[]string{"2", "4"}, false},
		{[]string{"2", "3", "4"}, false},
		{[]string{"3", "4", "5"}, false},
		{[]string{"3", "3", "4"}, false},
		{[]string{"3", "4", "9"}, false},
	} {
		k := &checker{c: c, o: o}
		for _, n := range try.told {
			k.out.findings = append(k.out.findings, finding{Code: "cell-redundant", Severity: "note", Position: "D", Cells: []ref{at(n)}})
		}
		k.redundant()
		assert.Equal(t, try.ok, len(k.problems) == 0, "%v: %v", try.told, k.problems)
	}
}

// TestMergeByHand: A where T is a (row 2), where it is n/a (3), and in 2001
// (4). Rows 2 and 3 are one row with `a, n/a`; not with `any`, since nothing
// is said of 2002 b; and 3 and 4 are no single row.
func TestMergeByHand(t *testing.T) {
	c := alone()
	for i, v := range []cond{one(0), one(never), {}} {
		c.addFit(string(rune('2'+i)), 0, v, nil)
		delete(c.fits[i].says, 0)
	}
	for _, n := range []string{"2", "3", "4"} {
		c.also(n, parts([]item{{"A", 0}}))
	}
	c.fits[2].years = cond{form: "list", spans: [][2]int{{2001, 2001}}}
	for i, f := range c.fits {
		f.line = i + 2
	}
	for _, try := range []struct {
		rows  []string
		words string
		ok    bool
	}{
		{[]string{"2", "3"}, `could be one row with "a, n/a" under T`, true},
		{[]string{"2", "3"}, `could be one row with "any" under T`, false},
		{[]string{"2", "3"}, `could be one row with "a" under T`, false},
		{[]string{"2", "3"}, `could be one row with "a, c" under T`, false},
		{[]string{"2", "3"}, `could be one row with "2001-2002" under Years`, false},
		{[]string{"3", "4"}, `could be one row with "2001" under Years`, false},
		{[]string{"2"}, `could be one row with "a" under T`, false},
		{[]string{"2", "3"}, `are one row`, false},
	} {
		k := &checker{c: c, o: c.enumerate()}
		f := finding{Code: "rows-mergeable", Severity: "note", Message: "rows " + strings.Join(try.rows, " and ") + " " + try.words}
		for _, n := range try.rows {
			f.Cells = append(f.Cells, ref{"f.xlsx", "Fitment", "A" + n})
		}
		k.out.findings = []finding{f}
		k.mergeable()
		assert.Equal(t, try.ok, len(k.problems) == 0, "%v: %v", try, k.problems)
	}
}

func TestPlainYearsByHand(t *testing.T) {
	for text, want := range map[string][][2]int{
		"2004": {{2004, 2004}}, "2004-2008": {{2004, 2008}}, "2004+": {{2004, last}}, "to 2008": {{earliest, 2008}}, "any": nil,
	} {
		got, err := plainYears(text)
		require.NoError(t, err)
		assert.Equal(t, want, got.spans, text)
	}
	_, err := plainYears("soon")
	assert.Error(t, err)
}

// TestIdleByHand: D has a cell and E has none; T is named by the Positions
// row, and by nothing once that says any.
func TestIdleByHand(t *testing.T) {
	c := alone()
	c.addFit("2", 0, cond{}, &statement{kind: "none"})
	c.also("9", nil)
	o := c.enumerate()
	assert.Equal(t, mustNot, c.positionIdle(0))
	assert.Equal(t, must, c.positionIdle(1))
	c.fits[0].fault = "T"
	assert.Equal(t, may, c.positionIdle(0))
	assert.Equal(t, mustNot, c.traitIdle(o, 0))
	place := c.positions[0].rows[0]
	place.traits[0] = cond{form: "any"}
	assert.Equal(t, may, c.traitIdle(o, 0))
	place.traits[0] = cond{}
	assert.Equal(t, must, c.traitIdle(o, 0))
	place.air = 0
	assert.Equal(t, mustNot, c.traitIdle(o, 0))
}
