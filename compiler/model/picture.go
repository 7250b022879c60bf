package model

import "ferrule/sheets/cell"

// Picture names a file beside the workbook of its cell; the zero value is none.
type Picture struct {
	Name string
	At   cell.Place
}

// Pictures gives every picture that the catalogue names, in the order of its sheets.
func (c *Catalogue) Pictures() []Picture {
	var out []Picture
	add := func(p Picture) {
		if p.Name != "" {
			out = append(out, p)
		}
	}
	for _, p := range c.Platforms {
		add(p.Picture)
	}
	for _, t := range c.YearTell {
		add(t.Picture)
	}
	for _, t := range c.Traits {
		for x := range t.texts {
			add(x.Picture)
		}
	}
	for _, p := range c.Positions {
		add(p.Picture)
	}
	for _, p := range c.Parts {
		add(p.Picture)
	}
	return out
}
