package check

import (
	"ferrule/compiler/finding"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// Irregular tells that something cannot be worked out exactly; position is "" for the whole
// platform, and example nil where there is none.
func (p *Platform) Irregular(position, what string, example *model.Example) {
	p.irregular(position, what+" is too irregular to be worked out exactly", "name fewer traits in the rows of this position, or split the platform", example)
}

func (p *Platform) irregular(position, message, fix string, example *model.Example) {
	p.found.findings = append(p.found.findings, &finding.Finding{Code: tooIrregular.Code, Severity: finding.Error, Platform: p.Model.Name, Position: position,
		Message: message, Cells: finding.At(p.Model.At), Fix: fix, Region: p.packer.Pack(&finding.Region{Example: example})})
}

// beyond tells that something about a position is not worked out, because the positions of the
// platform together are too irregular, whatever this one is.
func (p *Platform) beyond(pos *model.Position, what string) {
	p.irregular(pos.Name, what+" is not worked out, because the positions of "+p.Model.Name+" together are too irregular",
		"name fewer traits in the rows of this platform, or split the platform", p.somewhere(pos))
}

// IrregularAt tells that something about a position cannot be worked out exactly.
func (p *Platform) IrregularAt(pos *model.Position, what string) {
	p.Irregular(pos.Name, what, p.somewhere(pos))
}

// outside gives a vehicle with the position that no fitment cell matches, where one can
// be found without working out the whole; nil where not.
func (p *Platform) outside(pos *model.Position) (example *model.Example) {
	var place *decide.Mount
	if err := p.Try(func() { place = decide.Ground(p.Platform, pos) }); err != nil {
		return nil
	}
	var boxes []space.Box
	for _, level := range place.Levels {
		for _, c := range level.Cells {
			boxes = append(boxes, c.Box)
		}
	}
	if c, _ := p.Outside(place.Exists, boxes); c != nil {
		return p.ExampleOf(c)
	}
	return nil
}

// somewhere gives a vehicle on which the position exists, without making regions.
func (p *Platform) somewhere(pos *model.Position) *model.Example {
	for _, row := range pos.Rows {
		if row.When.SetAside {
			continue
		}
		if c, ok := p.FirstIn(p.All, p.Bounds(&row.When)); ok {
			return p.ExampleOf(c)
		}
	}
	return nil
}

// tooIrregular is told by whoever ran out of budget, not by a check.
var tooIrregular = finding.Kind{Code: finding.TooIrregular, Severity: "error",
	Summary: "a set of vehicles is too irregular to be worked out exactly",
	Doc:     "Every answer is exact or is not given. Where the rows of one position cut the vehicles into so many unlike pieces that the compiler's budget is used up, it says so and gives one vehicle as an example, and never guesses. The budget is counted in pieces, not in seconds, so the same workbooks always give the same answer. All positions of a platform share a second, larger budget, and once that is used up the positions that are left are told in the same way; after a position that is too irregular by itself a tenth of it is left for the others.",
	Before:  "Fitment, hundreds of rows that each name other values of many traits",
	After:   "Fitment, rows that name the few traits on which the part depends"}
