package enumerate

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// limitless is alone with K (which holds A, of family F) fitted at D everywhere it
// exists: 0 is 2001 a, 2 is 2002 a, 4 is 2002 n/a. Travel is 230 mm in 2001, 250 mm where
// T is a in 2002, and, by a third row, 230 mm where T is a.
func limitless(precedence int) *catalogue {
	c := alone()
	c.addFit("2", 0, cond{}, parts([]item{{"K", 0}}))
	f := &fact{measured: measured{name: "Travel", kind: "length"}}
	in := func(year int) cond { return cond{form: "list", spans: [][2]int{{year, year}}} }
	for i, r := range []*factRow{
		{row: newRow(), conds: conds{cond{}, in(2001), []cond{{}}}, states: map[string]amount{"Travel": still("0.23")}},
		{row: newRow(), conds: conds{cond{}, in(2002), []cond{one(0)}}, states: map[string]amount{"Travel": still("0.25")}},
		{row: newRow(), conds: conds{cond{}, cond{}, []cond{one(0)}}, states: map[string]amount{"Travel": still("0.23")}, precedence: precedence},
	} {
		r.at["Travel"] = ref{"f.xlsx", "Facts", "C" + string(rune('2'+i))}
		f.rows, c.factRows = append(f.rows, r), append(c.factRows, r)
	}
	c.facts = []*fact{f}
	c.files = []string{"f.xlsx"}
	c.sheets = append(c.sheets, &sheet{file: "f.xlsx", name: "Facts", heads: map[string]ref{"Travel": {"f.xlsx", "Facts", "C1"}}})
	return c
}

func still(text string) amount { return amount{exactly(text), exactly(text)} }

// rule adds a limit on the Length of parts: that of A is 240 mm.
func (c *catalogue) rule(must string, right *tree) {
	l := &limit{row: newRow(), position: -1, family: "F", left: &tree{name: "Length"}, must: must, right: right}
	l.at["Limit"] = ref{"f.xlsx", "Limits", "A2"}
	c.limits = append(c.limits, l)
	p := c.part("A")
	p.has = map[string]amount{"Length": still("0.24")}
	p.at["Length"] = ref{"f.xlsx", "Parts", "D2"}
}

// TestLimitsByHand: A in the kit is 240 mm long, which is enough in 2001 and 10 mm short
// where 250 mm are stated and what the third row says has less weight; nobody states
// Travel of number 4. Where the third row has as much weight it is disputed.
func TestLimitsByHand(t *testing.T) {
	const cells = "f.xlsx:Fitment!B2 & f.xlsx:Limits!A2 & A"
	missing := map[string][]int{" f.xlsx:Limits!A2 & f.xlsx:Facts!C1": {4}}

	c := limitless(-1)
	c.rule("at least", &tree{name: "Travel"})
	o := c.enumerate()
	assert.Equal(t, map[string][]int{"D " + cells + " & 6/25..6/25 & 1/4..1/4": {2}}, o.sets("limit-broken"))
	assert.Equal(t, missing, o.sets("fact-missing"))
	assert.Empty(t, o.sets("fact-conflict"))
	for id, e := range o.findings {
		if id.code == "limit-broken" {
			assert.Zero(t, e.margin.Cmp(exactly("0.01")))
			assert.Equal(t, []ref{{"f.xlsx", "Facts", "C3"}, {"f.xlsx", "Fitment", "B2"}, {"f.xlsx", "Limits", "A2"}, {"f.xlsx", "Parts", "D2"}}, e.cells)
		}
	}

	c = limitless(0)
	c.rule("at least", &tree{name: "Travel"})
	o = c.enumerate()
	assert.Empty(t, o.sets("limit-broken"))
	assert.Equal(t, missing, o.sets("fact-missing"))
	assert.Equal(t, map[string][]int{" f.xlsx:Facts!C3 & f.xlsx:Facts!C4": {2}}, o.sets("fact-conflict"))
	assert.Len(t, o.doubt[spotAt{o.worlds[0], 2, 0}], 1)
	assert.Empty(t, o.doubt[spotAt{o.worlds[0], 0, 0}])

	delete(c.part("A").has, "Length")
	o = c.enumerate()
	assert.Len(t, o.doubt[spotAt{o.worlds[0], 2, 0}], 1, "also of a part that states no length")
}

// TestTreesByHand: a range is taken with both ends, and what may be zero divides nothing.
func TestTreesByHand(t *testing.T) {
	wide := &tree{amount: amount{exactly("-1"), exactly("2")}, text: "-1 to 2"}
	three := &tree{amount: still("3"), text: "3"}
	for _, try := range []struct {
		op        string
		low, high string
	}{{"+", "2", "5"}, {"-", "-4", "-1"}, {"*", "-3", "6"}, {"/", "-1/3", "2/3"}} {
		is, ok := (&tree{op: try.op, left: wide, right: three}).work(nil)
		require.True(t, ok)
		assert.True(t, is.equal(amount{exactly(try.low), exactly(try.high)}), "%s: %s", try.op, is)
	}
	_, ok := (&tree{op: "/", left: three, right: wide}).work(nil)
	assert.False(t, ok)
	assert.True(t, (&tree{op: "/", left: three, right: wide}).hopeless())
}
