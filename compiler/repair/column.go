package repair

import (
	"ferrule/compiler/measure"
	"ferrule/compiler/model"
	"ferrule/schema"
)

// reader gives what tells whether a text reads in a column and names only what is declared; nil for
// columns in which nothing is mended: what declares names is never, since others may refer to it.
func (p *Mending) reader(c filled) func(string) bool {
	if !c.column.Known {
		return p.further(c)
	}
	own, _ := schema.Find(c.Kind, c.column.Name)
	switch {
	case own.Declares:
		return nil
	case own.Holds == schema.HoldsPart:
		return func(text string) bool { _, err := p.words.Part(text); return err == nil }
	case own.Holds == schema.HoldsMeasured:
		return func(text string) bool { return p.nominal(text, c.column.Unit) }
	case c.column.Name == "Platform" && schema.FurtherOf(c.Kind).Traits:
		return func(text string) bool { _, err := p.words.Platforms(text); return err == nil }
	case c.column.Name == "Position":
		return func(text string) bool { _, err := p.words.Position(text); return err == nil }
	}
	return nil
}

// further is reader for columns that are called as a trait or a position.
func (p *Mending) further(c filled) func(string) bool {
	is := schema.FurtherOf(c.Kind)
	if t := p.trait(c); t != nil {
		return func(text string) bool { _, _, err := p.words.Values(t, text); return err == nil }
	}
	if _, err := p.words.Position(c.column.Name); err == nil && is.Positions {
		return func(text string) bool {
			_, unknown, err := p.words.Fits(text)
			return err == nil && len(unknown) == 0
		}
	}
	return nil
}

// trait gives the trait that a column is called as.
func (p *Mending) trait(c filled) *model.Trait {
	if c.column.Known || !schema.FurtherOf(c.Kind).Traits {
		return nil
	}
	t, err := p.words.Trait(c.column.Name)
	if err != nil {
		return nil
	}
	return t
}

// nominal tells whether a text is a size of the tables.
func (p *Mending) nominal(text, unit string) bool {
	u, _ := measure.ParseUnit(unit)
	size, err := measure.ParseSizeIn(text, u, measure.Options{Comma: p.cat.Settings.DecimalComma})
	return err == nil && p.cat.Sizes.Admits(size)
}
