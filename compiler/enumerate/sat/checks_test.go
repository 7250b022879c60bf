package sat

import (
	"slices"

	"ferrule/compiler/finding"
	"ferrule/compiler/model"
	"ferrule/sheets/cell"
)

// place asks about one position alone.
func (a *audit) place(p *model.Platform, pos *model.Position, told map[*model.FitCell]bool) {
	w := newWorld(newProver(), a.cat, p)
	pl := newPlace(w, pos)
	claims := a.coverage(pl)
	claims = append(claims, a.conflicts(pl)...)
	claims = append(claims, a.positionConflicts(pl)...)
	claims = append(claims, a.forbidden(pl)...)
	claims = append(claims, a.lines(pl)...)
	a.settle(w, claims)
	a.redundancy(pl, told)
	a.questions += w.asked
}

func (pl *place) about(code finding.Code, cells ...cell.Place) subject {
	s := subject{code: code, position: pl.position.Name}
	if len(cells) == 2 {
		s.a, s.b = cells[0], cells[1]
	}
	return s
}

func (a *audit) coverage(pl *place) []*claim {
	out := []*claim{
		a.claim(pl.world, "planned", pl.about("coverage-planned"), pl.only("- planned")...),
		a.claim(pl.world, "ask", pl.about("coverage-ask"), pl.only("- ask")...),
	}
	if pl.position.Coverage != model.Optional {
		out = append(out, a.claim(pl.world, "gap", pl.about("coverage-gap"), pl.exists, pl.undecided))
	}
	return out
}

// conflicts asks about each pair of cells that can decide on one configuration and do
// not always say the same.
func (a *audit) conflicts(pl *place) []*claim {
	var out []*claim
	for i, x := range pl.cells {
		for _, y := range pl.cells[i+1:] {
			if x.Row.Precedence != y.Row.Precedence {
				continue
			}
			differ, ok := pl.either(func(r *model.PositionRow) bool {
				return says(x.Fits, r.Quantity) != says(y.Fits, r.Quantity)
			})
			if ok {
				out = append(out, a.claim(pl.world, "pair", pl.about("fitment-conflict", x.At, y.At), x.decides, y.decides, differ))
			}
		}
	}
	return out
}

func (a *audit) positionConflicts(pl *place) []*claim {
	var out []*claim
	for i, x := range pl.position.Rows {
		for _, y := range pl.position.Rows[i+1:] {
			if x.Quantity != y.Quantity || x.AirLine != y.AirLine {
				out = append(out, a.claim(pl.world, "position rows", pl.about("position-conflict", x.At, y.At), pl.meets(&x.When), pl.meets(&y.When)))
			}
		}
	}
	return out
}

func (a *audit) forbidden(pl *place) []*claim {
	var out []*claim
	for _, r := range a.cat.Rules {
		if r.Effect != model.Forbid || r.With != nil {
			continue
		}
		for _, c := range pl.cells {
			for _, part := range concerned(r, c.Fits) {
				subject := pl.about("part-forbidden", c.At, r.PartAt)
				subject.part = part.Number
				out = append(out, a.claim(pl.world, "forbidden", subject, c.decides, pl.meets(&r.When)))
			}
		}
	}
	return out
}

// lines asks, for each part with a Line size that a cell offers, whether the cell
// decides where the position's line has another size or none.
func (a *audit) lines(pl *place) []*claim {
	var out []*claim
	for _, c := range pl.cells {
		for _, part := range offers(c.Fits) {
			if part.Line == nil {
				continue
			}
			var wrong []int
			for _, v := range pl.variants {
				if v.row.AirLine != nil {
					wrong = append(wrong, pl.and(v.here, -pl.or(pl.sized(v.row.AirLine, part)...)))
				}
			}
			out = append(out, a.claim(pl.world, "line size", pl.about("line-size-mismatch", c.At, part.LineAt), c.decides, pl.or(wrong...)))
		}
	}
	return out
}

// sized gives the values of a line that have the part's size.
func (pl *place) sized(line *model.Trait, part *model.Part) []int {
	var out []int
	for i, v := range line.Values {
		if v.Size.Line == part.Line.Line && v.Size.MM().Cmp(part.Line.MM()) == 0 {
			out = append(out, pl.is[line.Index+1][i])
		}
	}
	return out
}

// company asks about Compatibility rows that name a second part, over all positions.
func (a *audit) company(p *model.Platform) {
	w := newWorld(newProver(), a.cat, p)
	places := make([]*place, len(a.cat.Positions))
	for i, pos := range a.cat.Positions {
		places[i] = newPlace(w, pos)
	}
	var claims []*claim
	for _, r := range a.cat.Rules {
		if r.With == nil || r.Effect == model.Care {
			continue
		}
		for _, pl := range places {
			if a.irregular[[2]string{p.Name, pl.position.Name}] {
				continue
			}
			for _, c := range pl.cells {
				for _, part := range concerned(r, c.Fits) {
					kind, code, broken := "companion missing", finding.Code("companion-missing"), -w.offering(places, r.With, nil)
					if r.Effect == model.Forbid {
						kind, code, broken = "companion forbidden", "companion-forbidden", w.offering(places, r.With, pl.position)
						if together(part, r.With, c.Fits) {
							broken = w.yes
						}
					}
					subject := pl.about(code, c.At, r.PartAt)
					subject.part = part.Number
					claims = append(claims, a.claim(w, kind, subject, c.decides, w.meets(&r.When), broken))
				}
			}
		}
	}
	a.settle(w, claims)
	a.questions += w.asked
}

// offering gives where a deciding cell of a position other than one offers the part.
func (w *world) offering(places []*place, part *model.Part, but *model.Position) int {
	var lits []int
	for _, pl := range places {
		for _, c := range pl.cells {
			for _, p := range offers(c.Fits) {
				if p == part && pl.position != but {
					lits = append(lits, c.decides)
				}
			}
		}
	}
	return w.or(lits...)
}

// together tells whether one alternative holds both parts.
func together(one, other *model.Part, f *model.Fits) bool {
	return slices.ContainsFunc(f.Alternatives, func(a model.Alternative) bool {
		parts := offered(a)
		return parts[one] && parts[other]
	})
}
