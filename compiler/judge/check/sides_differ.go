package check

import (
	"fmt"
	"slices"
	"strings"

	"ferrule/compiler/finding"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/owed"
	"ferrule/compiler/space"
)

var sidesDiffer = &Check{
	Kind: finding.Kind{Code: finding.SidesDiffer, Severity: "warning",
		Summary: "left and right take different parts, and nothing on the vehicle tells left from right",
		Doc:     "The positions are a pair, both are fitted, and one takes what the other does not take on the mirror image of the vehicle: the same vehicle, with left and right exchanged in the names of its values and traits (Left tee, Right-hand). A vehicle whose values name no side is its own mirror image. Of several traits that name a side, some may decide for both sides alike: left and right are exchanged in those of them in which the fewest vehicles differ. One of the two parts at least goes on either side: some pair has it at both of its positions, as the last cells of the finding show; parts that are made for one side are let alone, and so is a vehicle whose mirror image does not exist, or takes the same on both sides as the vehicle itself does. Where the rows of one side ask for years or for a trait that names no side, and those of the other do not, the difference is meant. A side is not held to what it takes where a row or a cell that was set aside may say something else of it: the finding is counted under the one that tells of that. Quantities are compared by side-quantity.",
		Before:  "Fitment!C4  Tee not Left tee  D4  Restrictor left FR-38T\nFitment!C5  Tee not Right tee  E5  Restrictor right FR-38",
		After:   "Fitment!C4  Tee not Left tee  D4  Restrictor left FR-38\nFitment!C5  Tee not Right tee  E5  Restrictor right FR-38"},
	Requires: []Ground{Sides},
	Position: func(p *Position) {
		other := p.opposite()
		if other == nil || len(p.on.run.either) == 0 || !facing(p.Mount.Position, other.Position) {
			return
		}
		asked := p.Mentioned()
		asked.Add(other.Mentioned())
		for _, r := range append(p.RowsOf(p.Mount.Position), p.RowsOf(other.Position)...) {
			if r.AirLine != nil {
				asked.Trait(r.AirLine)
			}
		}
		g, found := p.clearest(other, asked)
		for _, u := range found {
			g.tell(u)
		}
	},
}

// kind is where a position takes the same parts, by themselves or in kits, in whatever
// quantities and order.
type kind struct {
	said  string // the numbers of each choice
	fits  *model.Fits
	where space.Region
}

// kinds splits where parts are fitted at a position by which they are. What a cell says in
// place of a number is no part.
func kinds(pl *decide.Mount) []kind {
	var out []kind
	for _, o := range pl.Offers() {
		said := choices(o.Fits)
		if said == "" {
			continue
		}
		if i := slices.IndexFunc(out, func(k kind) bool { return k.said == said }); i >= 0 {
			out[i].where = pl.Union(out[i].where, o.Where)
		} else {
			out = append(out, kind{said, o.Fits, o.Where})
		}
	}
	return out
}

// choices is equal for two cells that offer the same parts, "" for one that offers none.
func choices(f *model.Fits) string {
	var all []string
	for _, a := range f.Alternatives {
		var numbers []string
		for _, item := range a {
			if item.Part.Misread {
				return ""
			}
			fitted(item.Part, func(part *model.Part) { numbers = append(numbers, part.Number) })
		}
		slices.Sort(numbers)
		all = append(all, strings.Join(slices.Compact(numbers), "\x00"))
	}
	slices.Sort(all)
	return strings.Join(slices.Compact(all), "\x01")
}

// tell tells where the two sides differ.
func (p *glass) tell(u contrast) {
	a, b, image, part := u.a, u.b, p.image, u.part
	region := p.known(u)
	if region == space.Empty {
		return
	}
	here, there := p.Mount.Position.Name, image.Position.Name
	cells := append(deciding(p.Mount, region), deciding(image, region)...)
	for _, c := range p.on.run.either[part] {
		cells = appendCell(cells, c.Place)
	}
	p.reportSides(finding.Finding{Code: finding.SidesDiffer, Severity: finding.Warning, Position: here,
		Message: fmt.Sprintf("%s takes %q on these vehicles of %s, and %s, opposite, takes %q%s; %s goes on either side elsewhere",
			here, Says(a.fits), p.Model.Name, there, Says(b.fits), p.exchanged(), part.Number),
		Cells: cells,
		Fix:   fmt.Sprintf("write the same part on both sides, %q or %q; where the sides do need different parts, say in the conditions of the rows what tells them apart, or accept the finding", Says(a.fits), Says(b.fits)),
	}, region, p.Mount, image)
}

// known takes out of a region where what was set aside may change what one of the two sides
// takes.
func (p *glass) known(u contrast) space.Region {
	f := finding.Finding{Code: finding.SidesDiffer, Position: p.Mount.Position.Name}
	region := p.on.owing(f, u.region, p.aside(p.Mount.Position, u.a), p.Bounds)
	return p.on.owing(f, region, p.aside(p.image.Position, u.b), func(w *model.When) space.Box {
		return p.mirror.Image(p.Platform, w, p.asked)
	})
}

// aside gives what was set aside and may say what a position takes, or what a kit there holds.
func (p *Position) aside(at *model.Position, k kind) []owed.Maybe {
	out := slices.Clone(p.on.run.Owed.At(at))
	k.fits.Parts(func(part *model.Part) {
		if cause := p.on.run.Owed.Holding(part); cause != nil {
			out = append(out, owed.Maybe{Cause: cause})
		}
	})
	return out
}

// first gives a part that one of two cells offers and the other does not, and that goes on
// either side; nil where there is none.
func (e either) first(a, b *model.Fits) *model.Part {
	for _, pair := range [2][2]*model.Fits{{a, b}, {b, a}} {
		var here, there []*model.Part
		pair[0].Parts(func(part *model.Part) { here = append(here, part) })
		pair[1].Parts(func(part *model.Part) { there = append(there, part) })
		for _, part := range here {
			if e[part] != nil && !slices.Contains(there, part) {
				return part
			}
		}
	}
	return nil
}

// fitted calls f for the part itself or, of a kit, for all parts in it that are none.
func fitted(part *model.Part, f func(*model.Part)) {
	part.Within(func(p *model.Part) {
		if !p.Kit() {
			f(p)
		}
	})
}
