package sat

import (
	"maps"
	"slices"

	"ferrule/compiler/model"
)

// place is one position of a platform as a formula.
type place struct {
	*world
	position  *model.Position
	exists    int
	variants  []variant
	cells     []*said
	undecided int            // no cell of any precedence matches
	saying    map[string]int // what cells say: a deciding cell says it
}

// variant is where a Positions row gives the quantity and the line.
type variant struct {
	row  *model.PositionRow
	here int
}

// said is a fitment cell; it decides where its row matches, the position exists and no
// cell of a higher precedence matches.
type said struct {
	*model.FitCell
	matches, decides int
}

func newPlace(w *world, position *model.Position) *place {
	pl := &place{world: w, position: position, saying: map[string]int{}}
	earlier := []int{}
	for _, r := range position.Rows {
		row := w.meets(&r.When)
		// Of rows that meet, the first one holds.
		pl.variants = append(pl.variants, variant{r, w.and(append(slices.Clone(earlier), row)...)})
		earlier = append(earlier, -row)
	}
	pl.exists = -w.and(earlier...)
	pl.decide()
	pl.say()
	return pl
}

func (pl *place) decide() {
	by := map[int][]*said{}
	for _, f := range pl.cat.Fitments {
		for _, c := range f.Cells {
			if c.Position == pl.position && pl.concerns(&f.When) {
				s := &said{FitCell: c, matches: pl.meets(&f.When)}
				by[f.Precedence] = append(by[f.Precedence], s)
				pl.cells = append(pl.cells, s)
			}
		}
	}
	higher := []int{} // none of these matches
	for _, precedence := range slices.Backward(slices.Sorted(maps.Keys(by))) {
		open := pl.and(append(slices.Clone(higher), pl.exists)...)
		for _, s := range by[precedence] {
			s.decides = pl.and(s.matches, open)
		}
		for _, s := range by[precedence] {
			higher = append(higher, -s.matches)
		}
	}
	pl.undecided = pl.and(higher...)
}

// say defines for each thing that cells say where a deciding cell says it.
func (pl *place) say() {
	where := map[string][]int{}
	for _, v := range pl.variants {
		for _, c := range pl.cells {
			key := says(c.Fits, v.row.Quantity)
			where[key] = append(where[key], pl.and(c.decides, v.here))
		}
	}
	for _, key := range slices.Sorted(maps.Keys(where)) {
		pl.saying[key] = pl.or(where[key]...)
	}
}

// only gives where deciding cells say one thing and nothing else.
func (pl *place) only(key string) []int {
	if pl.saying[key] == 0 {
		return []int{-pl.yes}
	}
	out := []int{pl.saying[key]}
	for other, l := range pl.saying {
		if other != key {
			out = append(out, -l)
		}
	}
	slices.Sort(out)
	return out
}

// either gives where one of the variants holds for which f does; false for none.
func (pl *place) either(f func(*model.PositionRow) bool) (int, bool) {
	var lits []int
	for _, v := range pl.variants {
		if f(v.row) {
			lits = append(lits, v.here)
		}
	}
	return pl.or(lits...), len(lits) > 0
}
