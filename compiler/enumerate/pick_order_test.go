package enumerate

import (
	"fmt"

	picklist "ferrule/compiler/ask/pick"
)

// distinctWays holds that no two ways say the same, and that each says how many the
// position takes only where that is one number.
func (k *checker) distinctWays(name string, w *world, pos int, ways []picklist.Way, of map[int]int) {
	seen := map[string]bool{}
	for n := range ways {
		way, quantity := &ways[n], -1
		if way.Missing {
			continue
		}
		c := asCase(way)
		text := fmt.Sprint(c.Outcome, "|", c.Settled != nil, "|", c.With, "|", c.Alternatives, "|", c.Text, "|", c.Notes)
		if seen[text] {
			k.failf("pick", "%s: two ways say %s", name, text)
		}
		seen[text] = true
		for i, which := range of {
			v := k.o.verdicts[w][i][pos]
			switch {
			case which != n || v.outcome == "gap":
			case quantity < 0 || quantity == v.quantity:
				quantity = v.quantity
			default:
				quantity = 0
			}
		}
		if quantity >= 0 && way.Case.Quantity != quantity {
			k.failf("pick", "%s: the way %s is told with quantity %d, want %d", name, text, way.Case.Quantity, quantity)
		}
	}
}

// ordered compares what is to be ordered: of each position that all of the vehicles have,
// settled on all, and whose first choice is the same on all.
func (k *checker) ordered(w *world, set []int, l *picklist.List) {
	want := map[string]int{}
	for pos := range k.c.positions {
		for _, it := range k.surely(w, set, pos) {
			want[it.name] += it.quantity
		}
	}
	for _, line := range l.Order {
		if want[line.Part.Number] != line.Quantity {
			k.failf("pick", "%d x %s to order, want %d", line.Quantity, line.Part.Number, want[line.Part.Number])
		}
		delete(want, line.Part.Number)
	}
	if len(want) > 0 {
		k.failf("pick", "%v are not to be ordered", want)
	}
}

// surely gives the first choice at a position that is the same on all of the vehicles.
func (k *checker) surely(w *world, set []int, pos int) []item {
	var first []item
	for n, i := range set {
		v := k.o.verdicts[w][i][pos]
		if v.outcome != "fitted" || v.cells[0].st.kind != "parts" || k.trouble(w, i, pos) {
			return nil
		}
		here := k.c.filled(v.cells[0].st, v.quantity)[0]
		if n > 0 && sayItems(here) != sayItems(first) {
			return nil
		}
		first = here
	}
	return first
}
