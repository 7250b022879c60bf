package enumerate

import (
	"math/big"
	"sort"
	"testing"

	"github.com/stretchr/testify/assert"
)

// opposite is the index of a position's pair: the one that it names, or else the first
// that names it; -1 for none.
func (c *catalogue) opposite(pos int) int {
	if pos < 0 {
		return -1
	}
	for i, p := range c.positions {
		if c.positions[pos].pair == p.name || c.positions[pos].pair == "" && p.pair == c.positions[pos].name {
			return i
		}
	}
	return -1
}

// sides notes where one of two positions that are each other's pair is fitted and the
// other is not, and where both are in different quantities.
func (c *catalogue) sides(o *outlook, w *world, i int) {
	for pos, p := range c.positions {
		other := c.opposite(pos)
		if other < 0 || c.opposite(other) != pos {
			continue
		}
		here, there := o.verdicts[w][i][pos], o.verdicts[w][i][other]
		if !here.exists || !there.exists || there.outcome != "fitted" {
			continue
		}
		at := func(code string) key { return key{code, c.platforms[w.platform].name, p.name, ""} }
		switch {
		case here.outcome == "gap" && c.owed(at("side-missing"), w, i, pos):
		case here.outcome == "gap" || here.outcome == "planned":
			o.add(at("side-missing"), "warning", w, i)
		case here.outcome == "fitted" && pos < other && c.unlike(here, there):
			o.add(at("side-quantity"), "warning", w, i)
		}
	}
}

// unlike reports whether two choices of the same rank, of as many parts and without a
// kit, are fitted in different quantities.
func (c *catalogue) unlike(a, b verdict) bool {
	left, right := c.amounts(a), c.amounts(b)
	for i := 0; i < len(left) && i < len(right); i++ {
		if left[i] == nil || right[i] == nil || len(left[i]) != len(right[i]) {
			continue
		}
		for k := range left[i] {
			if left[i][k] != right[i][k] {
				return true
			}
		}
	}
	return false
}

// amounts lists the quantities of each choice in order, nil for one with a kit.
func (c *catalogue) amounts(v verdict) [][]int {
	var out [][]int
	for _, items := range c.filled(v.cells[0].st, v.quantity) {
		var n []int
		for _, it := range items {
			if c.kit(it.name) != nil {
				n = nil
				break
			}
			n = append(n, it.quantity)
		}
		sort.Ints(n)
		out = append(out, n)
	}
	return out
}

// lookalikes lists the cells of two values of a size trait that are less than a
// hundredth apart, with the severity that they must be told with.
func (c *catalogue) lookalikes() map[[2]ref]string {
	out := map[[2]ref]string{}
	for _, t := range c.traits {
		for i, a := range t.values {
			for k, b := range t.values[:i] {
				if a.size == nil || a.size.hose != b.size.hose || !hundredth(a.size.mm, b.size.mm) {
					continue
				}
				severity := "warning"
				if t.rows[i].cells["How to tell"] != nil && t.rows[k].cells["How to tell"] != nil {
					severity = "note"
				}
				out[[2]ref{t.rows[k].at["Value"], t.rows[i].at["Value"]}] = severity
			}
		}
	}
	return out
}

// hundredth reports whether two lengths are within a hundredth of the larger.
func hundredth(a, b *big.Rat) bool {
	if a.Cmp(b) < 0 {
		a, b = b, a
	}
	least := new(big.Rat).Mul(a, big.NewRat(99, 100))
	return b.Cmp(least) >= 0
}

// nearMisses compares size-near-miss: each pair once, and no other.
func (k *checker) nearMisses() {
	want := k.c.lookalikes()
	for _, f := range k.out.findings {
		if f.Code != "size-near-miss" {
			continue
		}
		if len(f.Cells) != 2 || f.Severity != want[[2]ref{f.Cells[0], f.Cells[1]}] {
			k.failf(f.Code, "not expected: %v %s", f.Cells, f.Severity)
			continue
		}
		delete(want, [2]ref{f.Cells[0], f.Cells[1]})
	}
	for cells, severity := range want {
		k.failf("size-near-miss", "no %s at %v", severity, cells)
	}
}

// TestSidesByHand: D takes 2 and exists where T is not b: configurations 0, 2 and 4. Row 2
// says `A` there where T is a (0 and 2), and `B` at E, which takes 1; row 3 says `B` at E
// where T is b or n/a. So D is missing in 4, where E is fitted, and in 0 and 2 the two
// take 2 and 1. `K or 2 x B` at E leaves K, a kit, uncompared, and has a second choice that
// D lacks. If E names a third position, D and E are no pair.
func TestSidesByHand(t *testing.T) {
	c := alone()
	c.addFit("2", 0, one(0), parts([]item{{"A", 0}}))
	c.addFit("3", 0, one(1, never), nil)
	b := parts([]item{{"B", 0}})
	c.also("2", b)
	c.also("3", b)
	c.positions[0].pair = "E"
	o := c.enumerate()
	assert.Equal(t, map[string][]int{"D ": {4}}, o.sets("side-missing"))
	assert.Equal(t, map[string][]int{"D ": {0, 2}}, o.sets("side-quantity"))

	c.also("2", parts([]item{{"K", 1}}, []item{{"B", 2}}))
	assert.Empty(t, c.enumerate().sets("side-quantity"))
	c.also("2", &statement{kind: "with", with: 0})
	c.also("3", &statement{kind: "planned"})
	assert.Empty(t, c.enumerate().sets("side-missing"), "with is an answer, and neither is fitted in 4")

	c.also("2", &statement{kind: "planned"})
	assert.Equal(t, map[string][]int{"E ": {0, 2}}, c.enumerate().sets("side-missing"))
	c.positions[1].pair = "F"
	assert.Empty(t, c.enumerate().sets("side-missing"))
}

// TestLookalikesByHand: 5/16 in is 7.9375 mm, 127/128 of 8 mm; 99 of 100 is a hundredth
// exactly; a tube and a hose are never compared.
func TestLookalikesByHand(t *testing.T) {
	assert.True(t, hundredth(inch(5, 16), millimetre(8)))
	assert.True(t, hundredth(millimetre(100), millimetre(99)))
	assert.False(t, hundredth(millimetre(200), big.NewRat(1979, 10)))
	sizes := []size{{mm: inch(5, 16)}, {mm: millimetre(8)}, {mm: millimetre(8), hose: true}}
	line := trait{name: "Line", kind: "size"}
	for i := range sizes {
		line.values = append(line.values, value{size: &sizes[i]})
		line.rows = append(line.rows, newRow())
		line.rows[i].at["Value"] = ref{"f.xlsx", "Traits", []string{"B2", "B3", "B4"}[i]}
	}
	c := &catalogue{traits: []trait{line}}
	pairOf := [2]ref{{"f.xlsx", "Traits", "B2"}, {"f.xlsx", "Traits", "B3"}}
	assert.Equal(t, map[[2]ref]string{pairOf: "warning"}, c.lookalikes())
	line.rows[0].cells["How to tell"], line.rows[1].cells["How to tell"] = "the print", "the print"
	assert.Equal(t, map[[2]ref]string{pairOf: "note"}, c.lookalikes())
}
