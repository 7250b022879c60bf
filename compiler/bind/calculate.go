package bind

import (
	"fmt"
	"slices"

	"ferrule/compiler/finding"
	"ferrule/compiler/formula"
	"ferrule/compiler/measure"
	"ferrule/compiler/model"
	"ferrule/sheets/cell"
)

// calculator works out what the Calculated sheets say of one part.
type calculator struct {
	*binder
	part *model.Part
	done map[*model.Calculated]result
}

// result is what a row comes to for a part; ok is false where the part lacks some of
// what it follows from, or the formula has no value.
type result struct {
	model.Reading
	ok bool
}

// calculate adds to a part what follows from its properties, and holds what it states
// itself against that. used remembers the rows that gave a value.
func (b *binder) calculate(p *model.Part, used map[*model.Calculated]bool) {
	k := calculator{b, p, map[*model.Calculated]result{}}
	for _, f := range b.cat.Figures {
		c := f.For(p)
		if c == nil || c.Formula == nil {
			continue
		}
		out := k.row(c)
		if !out.ok {
			continue
		}
		used[c] = true
		if stated, has := p.Reading(f); !has {
			p.Readings = append(p.Readings, out.Reading)
			p.Properties = append(p.Properties, model.Property{Name: f.Name, Unit: out.Quantity.Unit.String(),
				Text: number(out.Quantity), At: c.At, Quantity: out.Quantity, By: c})
		} else if !agrees(stated.Quantity, out.Quantity) {
			k.differs(stated, out.Reading)
		}
	}
}

// row works out what a row comes to, once. What it follows from never leads back to it.
func (k *calculator) row(c *model.Calculated) result {
	out, known := k.done[c]
	if !known {
		out = k.work(c)
		k.done[c] = out
	}
	return out
}

func (k *calculator) work(c *model.Calculated) result {
	var from []cell.Place
	values := make([]formula.Value, len(c.Formula.Uses))
	for i, id := range c.Formula.Uses {
		f := k.cat.Figures[id]
		r, ok := k.part.Reading(f)
		if by := f.For(k.part); !ok && by != nil && by.Formula != nil {
			out := k.row(by)
			r, ok = out.Reading, out.ok
		}
		if !ok {
			return result{}
		}
		values[i] = r.Value
		from = join(from, r.From)
	}
	v, err := c.Formula.Eval(values)
	if err != nil {
		k.Report(&finding.Finding{Code: finding.CalculatedUndefined, Severity: finding.Error, Part: k.part.Number,
			Message: fmt.Sprintf("%s of %s cannot be calculated: %s", c.Figure.Name, k.part.Number, err),
			Cells:   finding.At(join([]cell.Place{c.TextAt}, from)...),
			Fix:     "correct the property, or the formula"})
		return result{}
	}
	return result{model.Reading{Figure: c.Figure, Quantity: measure.FromSI(v.Low, v.High, c.Unit), Value: v, By: c,
		From: join(from, []cell.Place{c.TextAt})}, true}
}

// join adds places that are not there yet.
func join(to, more []cell.Place) []cell.Place {
	for _, at := range more {
		if !slices.Contains(to, at) {
			to = append(to, at)
		}
	}
	return to
}

// differs reports a property that the part states and that follows otherwise.
func (k *calculator) differs(stated, follows model.Reading) {
	k.Report(&finding.Finding{Code: finding.CalculatedDiffers, Severity: finding.Error, Part: k.part.Number,
		Message: fmt.Sprintf("%s states %s under %s, and %s is %s", k.part.Number, stated.Quantity, stated.Figure.Name, follows.By.Formula.Text, follows.Quantity),
		Cells:   finding.At(join(slices.Clone(stated.From), follows.From)...),
		Fix:     "correct the property or what it follows from, or empty its cell, since it is calculated"})
}
