package sat

import (
	"ferrule/compiler/model"
	"ferrule/sheets/cell"
)

// reachable asks of every row whether a configuration that exists meets it.
func (a *audit) reachable() {
	var worlds []*world
	for _, p := range a.cat.Platforms {
		worlds = append(worlds, newWorld(newProver(), a.cat, p))
	}
	row := func(when *model.When, at cell.Place) {
		if when.SetAside {
			return // set aside, and not unreachable as well
		}
		s := subject{code: "row-unreachable", a: at}
		a.agree("unreachable row", a.take(s) != nil, !reached(worlds, when), s)
	}
	for _, f := range a.cat.Fitments {
		row(&f.When, f.At)
	}
	for _, p := range a.cat.Positions {
		for _, r := range p.Rows {
			row(&r.When, r.At)
		}
	}
	for _, r := range a.cat.Rules {
		row(&r.When, r.At)
	}
	for _, w := range worlds {
		a.questions += w.asked
	}
}

func reached(worlds []*world, when *model.When) bool {
	for _, w := range worlds {
		if w.concerns(when) && w.sat(w.inside(model.Box{Years: spans(w, when), Traits: when.Traits})...) {
			return true
		}
	}
	return false
}

// spans gives the years of a row as a list of single years; nil for any.
func spans(w *world, when *model.When) []model.Span {
	if when.Years == nil {
		return nil
	}
	out := []model.Span{}
	for i, in := range w.conditions(when)[0].in {
		if in {
			y := w.platform.Years[i]
			out = append(out, model.Span{From: y, To: y})
		}
	}
	return out
}

// redundant gives the cells that are told as redundant.
func (a *audit) redundant() map[*model.FitCell]bool {
	out := map[*model.FitCell]bool{}
	for _, f := range a.cat.Fitments {
		for _, c := range f.Cells {
			if a.take(redundantAt(c)) != nil {
				out[c] = true
			}
		}
	}
	return out
}

func redundantAt(c *model.FitCell) subject {
	return subject{code: "cell-redundant", position: c.Position.Name, a: c.At}
}

// redundancy asks for every cell whether it decides anything that no cell left would
// say, when all cells that are told as redundant are gone.
func (a *audit) redundancy(pl *place, told map[*model.FitCell]bool) {
	for _, c := range pl.cells {
		alone := pl.alone(c, told)
		if alone {
			a.needs[c.FitCell] = true
		}
		if told[c.FitCell] {
			a.agree("redundant cell", false, alone, redundantAt(c.FitCell))
		}
	}
}

func (pl *place) alone(c *said, told map[*model.FitCell]bool) bool {
	for _, v := range pl.variants {
		lits := []int{c.decides, v.here}
		for _, o := range pl.cells {
			if o != c && !told[o.FitCell] && o.Row.Precedence == c.Row.Precedence &&
				says(o.Fits, v.row.Quantity) == says(c.Fits, v.row.Quantity) {
				lits = append(lits, -o.matches)
			}
		}
		if pl.sat(lits...) {
			return true
		}
	}
	return false
}

// kept asks whether no further cell of a catalogue with one platform could go as well,
// and whether rows told as unreachable are told as that only.
func (a *audit) kept(told map[*model.FitCell]bool) {
	var worlds []*world
	for _, p := range a.cat.Platforms {
		worlds = append(worlds, newWorld(newProver(), a.cat, p))
	}
	for _, f := range a.cat.Fitments {
		if f.When.SetAside || !reached(worlds, &f.When) {
			for _, c := range f.Cells {
				if told[c] {
					a.differ("unreachable and redundant: " + c.At.String())
				}
			}
			continue
		}
		if len(a.cat.Platforms) > 1 || len(a.irregular) > 0 {
			continue
		}
		for _, c := range f.Cells {
			if !told[c] {
				a.agree("kept cell", true, a.needs[c], redundantAt(c))
			}
		}
	}
}
