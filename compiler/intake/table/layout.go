package table

import "ferrule/schema"

// Layout is what a kind of sheet must look like.
type Layout struct {
	Kind     string   // as in the name of the sheet, lower case
	Required []string // columns that the header row must hold
	Known    []string // all columns that the kind defines
}

// LayoutOf gives the layout of a kind, as its schema says.
func LayoutOf(kind string) Layout {
	l := Layout{Kind: kind}
	for _, c := range schema.Columns(kind) {
		l.Known = append(l.Known, c.Name)
		if c.Required {
			l.Required = append(l.Required, c.Name)
		}
	}
	return l
}
