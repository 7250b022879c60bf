package check

import (
	"fmt"
	"slices"
	"strings"

	"ferrule/compiler/finding"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/measure"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
	"ferrule/schema/word"
)

var lineSizeMismatch = &Check{
	Kind: finding.Kind{Code: finding.LineSizeMismatch, Severity: "error",
		Summary: "a part for one size of line is offered where the line has another",
		Doc:     "The position's Air line names a trait, and on these vehicles its value is not the part's Line size, or the trait does not apply. Sizes are compared by magnitude (0.5 in and 12.7 mm are one), a tube never matches a hose, and a part with a blank Line size matches every line. Guides print that this is not settled, also where it is accepted.",
		Before:  "Parts!A4  FR-38  E4  3/8 in\nFitment!C4  Front air line 1/2 in  D4  FR-38",
		After:   "Parts!A5  FR-12  E5  1/2 in\nFitment!C4  Front air line 1/2 in  D4  FR-12"},
	Position: func(p *Position) {
		by := p.Mention()
		for _, v := range p.Variants {
			if v.Row.AirLine != nil {
				by.Trait(v.Row.AirLine)
			}
		}
		told := tally{p: p, by: by}
		for i := range p.Levels {
			for _, c := range p.Levels[i].Cells {
				c.Fits.Parts(func(part *model.Part) {
					if part.Line != nil {
						mismatch(p, &p.Levels[i], c, part, &told)
					}
				})
			}
		}
		told.report()
	},
}

func mismatch(p *Position, level *decide.Level, c *decide.Cell, part *model.Part, told *tally) {
	bad := space.Empty
	var line *model.Trait
	for _, v := range p.Variants {
		if v.Row.AirLine == nil || !p.Meets(v.Where, c.Box) {
			continue
		}
		box := make(space.Box, v.Row.AirLine.Index+2)
		box[v.Row.AirLine.Index+1] = others(v.Row.AirLine, part.Line)
		here := p.Intersect(v.Where, p.Box(box))
		here = p.Intersect(here, p.Decides(level, c))
		if here != space.Empty {
			line = v.Row.AirLine
		}
		bad = p.Union(bad, here)
	}
	p.unsettle(bad, told.by, finding.LineSizeMismatch, part.Number)
	told.add(c.At, part.LineAt, part.Number, bad, func() finding.Finding {
		return finding.Finding{Code: finding.LineSizeMismatch, Severity: finding.Error, Part: part.Number,
			Message: fmt.Sprintf("%s is for %s lines, and at %s on these vehicles of %s %s", part.Number, sizeWords(part.Line),
				p.Mount.Position.Name, p.Model.Name, lineWords(p, line, bad, part.Line)),
			Cells: finding.At(c.At, part.LineAt),
			Fix:   "offer the part for that line, or take these vehicles out of the row"}
	})
}

// others gives the values of a line that a size does not match, and 'does not apply'.
func others(t *model.Trait, size *measure.Size) space.Set {
	out := space.SetOf(t.Absent())
	for i, v := range t.Values {
		if v.Size.Num == nil || size.Num == nil || !v.Size.Equal(*size) {
			out = out.Or(space.SetOf(i))
		}
	}
	return out
}

func sizeWords(s *measure.Size) string {
	if s.Num == nil {
		return fmt.Sprintf("%q", s.Text)
	}
	return s.String()
}

// lineWords says which sizes the line has in a region.
func lineWords(p *Position, t *model.Trait, region space.Region, size *measure.Size) string {
	box := make(space.Box, t.Index+2)
	var have, hints []string
	for i, v := range t.Values {
		box[t.Index+1] = space.SetOf(i)
		if !p.Meets(region, box) {
			continue
		}
		have = append(have, v.Name)
		if hint := unlike(p.Cat.Sizes, v.Size, *size); hint != "" && !slices.Contains(hints, hint) {
			hints = append(hints, hint)
		}
	}
	box[t.Index+1] = space.SetOf(t.Absent())
	absent := p.Meets(region, box)
	if len(have) == 0 {
		return t.Name + " does not apply"
	}
	words := t.Name + " is " + word.List(have, "or")
	if absent {
		words += ", or does not apply"
	}
	if len(hints) > 0 {
		words += " (" + strings.Join(hints, "; ") + ")"
	}
	return words
}

// unlike says what is easily missed about two sizes that differ, "" where it is plain.
func unlike(t measure.Table, a, b measure.Size) string {
	if a.Known() && b.Known() && a.Line != b.Line {
		return "a tube is named by its outside diameter and a hose by its inside diameter, so the two never match"
	}
	if why := confusable(t, a, b); why != "" {
		return why + "; read the print on the line"
	}
	return ""
}
