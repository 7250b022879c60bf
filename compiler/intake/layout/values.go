package layout

import (
	"fmt"
	"strings"

	"ferrule/compiler/intake/table"
	"ferrule/schema/word"
	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// held is a value that is kept for further rows.
type held struct {
	sheets.Value
	at cell.Pos
}

func text(s string) sheets.Value { return sheets.Value{Kind: sheets.Text, Text: s} }

func value(s string) *sheets.Value { v := text(s); return &v }

// values gives the fields that a value makes, one set for each row that it makes.
func (g *reading) values(c *column, v *held) [][]table.Field {
	var out [][]table.Field
	for _, w := range g.pieces(c, v) {
		if fields := g.fields(c, w); len(fields) > 0 {
			out = append(out, fields)
		}
	}
	return out
}

// fields makes the fields of one value: that of its column, or also of the years behind it.
func (g *reading) fields(c *column, v *held) []table.Field {
	if strings.TrimSpace(v.Text) == "" && v.Kind == sheets.Text {
		return nil
	}
	if len(c.level) == 2 {
		return g.cut(c, v)
	}
	if c.years[0] {
		return []table.Field{g.yearsField(c, c.level[0], v)}
	}
	return []table.Field{g.field(c.level[0], v)}
}

// cut makes the two fields of a name with years behind it.
func (g *reading) cut(c *column, v *held) []table.Field {
	name, said := g.years.cut(v.Text)
	if v.Kind != sheets.Text {
		return []table.Field{g.field(c.level[0], v)}
	}
	var out []table.Field
	if name == strings.TrimSpace(v.Text) {
		return append(out, g.field(c.level[0], v))
	}
	out = append(out, g.field(c.level[0], &held{g.worded(c.level[0], name), v.at}))
	f := g.field(c.level[1], &held{text(said.text), v.at})
	if said.short {
		g.short(v.Text, v.at, c.row)
		f.Broken = true
	}
	return append(out, f)
}

// yearsField makes a field of years as old sheets write them.
func (g *reading) yearsField(c *column, column int, v *held) table.Field {
	if v.Kind != sheets.Text && v.Kind != sheets.Number {
		return g.field(column, v)
	}
	said, ok := g.years.spell(v.Text)
	if !ok || said.text == strings.TrimSpace(v.Text) {
		return g.field(column, v)
	}
	f := g.field(column, &held{text(said.text), v.at})
	if said.short {
		g.short(v.Text, v.at, c.row)
		f.Broken = true
	}
	return f
}

// short tells of years of two digits where nobody says of which century.
func (g *reading) short(said string, at cell.Pos, by *Row) {
	g.fault("century", at, by.AsAt, table.Unread,
		fmt.Sprintf("%s has years of two digits, and no row of Layouts says what they mean", word.Quote(table.Short(said))),
		"write a row say with Years under Where and century = 1950 under As, if 50 means 1950 and 49 means 2049")
}

// field makes a field under a column of the table.
func (g *reading) field(column int, v *held) table.Field {
	if column == partOf {
		f := g.maker.Field(g.cellsAt, &v.Value, v.at)
		f.Column = partOf
		return f
	}
	return g.maker.Field(column, &v.Value, v.at)
}
