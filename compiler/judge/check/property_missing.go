package check

import (
	"fmt"
	"slices"

	"ferrule/compiler/finding"
	"ferrule/compiler/measure"
	"ferrule/compiler/model"
	"ferrule/schema/word"
)

var propertyMissing = &Check{
	Kind: finding.Kind{Code: finding.PropertyMissing, Severity: "error, or warning where the Effect of every limit that needs it is warning",
		Summary: "a limit needs a property of an offered part, and the part does not state it",
		Doc:     "Some fitment cell offers the part where the limit is about it, and the limit cannot be worked out, so nobody knows whether the part can work. Fill in the property, or name under Position or Family what the limit is meant for.",
		Before:  "Limits!C2  Damper  D2  Extended length\nParts!A4  HD-20  B4  Damper  E4  (Extended length is blank)",
		After:   "Parts!A4  HD-20  B4  Damper  E4  612 mm"},
	Requires: []Ground{Met},
	Catalogue: func(c *Catalogue) {
		for _, part := range c.Parts {
			for _, l := range c.lacks(part) {
				if cause := c.owed.Stated(l.Cell(part)); cause != nil {
					cause.Owe(finding.PropertyMissing, 1)
				} else if q := l.stated(part); q == nil || !q.Refused { // what was refused has been told as an error
					c.Report(l.finding(part))
				}
			}
		}
	},
}

// lack is a property that a part does not state, with the limits that need it.
type lack struct {
	*model.Figure
	limits []*model.Limit
}

// lacks gives what an offered part does not state though limits need it, in the order
// of the limits.
func (c *Catalogue) lacks(part *model.Part) []*lack {
	var out []*lack
	for _, s := range c.limits.About(part) {
		if !c.Met[s] {
			continue
		}
		seen := map[*model.Figure]bool{}
		for _, figure := range s.Lacking {
			for _, f := range behind(c.Catalogue, part, figure, seen) {
				i := slices.IndexFunc(out, func(l *lack) bool { return l.Figure == f })
				if i < 0 {
					i = len(out)
					out = append(out, &lack{Figure: f})
				}
				if !slices.Contains(out[i].limits, s.Limit) {
					out[i].limits = append(out[i].limits, s.Limit)
				}
			}
		}
	}
	return out
}

// behind gives what is missing where a part lacks a figure: the figure itself, or, where
// it is calculated, what the part lacks of that from which it follows. A formula that
// cannot be read, or has no value, has been told, and nothing follows from it.
// Figures seen before are left out.
func behind(cat *model.Catalogue, part *model.Part, figure *model.Figure, seen map[*model.Figure]bool) []*model.Figure {
	by := figure.For(part)
	switch {
	case seen[figure] || by != nil && by.Formula == nil:
		return nil
	case by == nil:
		seen[figure] = true
		return []*model.Figure{figure}
	}
	seen[figure] = true
	var out []*model.Figure
	for _, id := range by.Formula.Uses {
		operand, _ := cat.Term(id)
		if _, ok := part.Reading(operand); !ok {
			out = append(out, behind(cat, part, operand, seen)...)
		}
	}
	return out
}

func (l *lack) finding(part *model.Part) *finding.Finding {
	worst, names := finding.Warning, make([]string, len(l.limits))
	for i, limit := range l.limits {
		worst, names[i] = max(worst, severity(limit)), fmt.Sprintf("%q", limit.Name)
	}
	needs := "the limit " + names[0] + " needs it"
	if len(names) > 1 {
		needs = "the limits " + word.List(names, "and") + " need it"
	}
	cells := finding.At(l.Cell(part))
	for _, limit := range l.limits {
		cells = appendCell(cells, limit.At)
	}
	return &finding.Finding{Code: finding.PropertyMissing, Severity: worst, Part: part.Number,
		Message: fmt.Sprintf("%s %s, and %s", part.Number, l.says(part), needs),
		Cells:   cells,
		Fix:     l.fix(part)}
}

// fix says what to do about it.
func (l *lack) fix(part *model.Part) string {
	write := "fill it in"
	if q := l.stated(part); q != nil && q.Quantity.Known() && q.Quantity.Bound() != measure.Exactly {
		write = fmt.Sprintf("write it without %s if the limit is about that very value", q.Quantity.Bound())
	}
	return write + ", or say under Position or Family which parts the limit is about"
}

// says tells what stands in the place of a property.
func (l *lack) says(part *model.Part) string {
	q := l.stated(part)
	switch {
	case q == nil:
		return "states no " + l.Name
	case q.Quantity.Known() && q.Quantity.Bound() != measure.Exactly:
		return fmt.Sprintf("says %q under %s, which is how far it may go and not what it is", q.Text, l.Name)
	}
	return fmt.Sprintf("says %q under %s, which is no %s", q.Text, l.Name, l.Dimension)
}

// stated gives what the part's row says in the place of a property, nil for nothing.
func (l *lack) stated(part *model.Part) *model.Property {
	for i, q := range part.Properties {
		if q.By == nil && q.Text != "" && word.Fold(q.Name) == word.Fold(l.Name) {
			return &part.Properties[i]
		}
	}
	return nil
}
