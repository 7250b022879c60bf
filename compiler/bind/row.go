package bind

import (
	"math/big"
	"slices"
	"strconv"
	"strings"

	"ferrule/compiler/intake/table"
	"ferrule/compiler/model"
	"ferrule/schema"
	"ferrule/schema/word"
	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// row is one record with its table.
type row struct {
	t *table.Table
	r *table.Record
}

// field finds the value under a column that the sheet's kind defines.
func (r row) field(column string) (table.Field, bool) {
	for _, f := range r.r.Fields {
		if c := &r.t.Columns[f.Column]; c.Known && c.Name == column {
			return f, true
		}
	}
	return table.Field{}, false
}

func (r row) place(f table.Field) cell.Place { return r.t.Place(f.At) }

// text gives a cell's text with white space at both ends cut, "" where it is blank or
// broken.
func (r row) text(column string) string {
	f, ok := r.field(column)
	if !ok || f.Broken {
		return ""
	}
	return strings.TrimSpace(f.Text)
}

// name is text with inner white space collapsed.
func (r row) name(column string) string { return strings.Join(strings.Fields(r.text(column)), " ") }

// word is a name with case folded, for columns that take one of a few words.
func (r row) word(column string) string { return word.Fold(r.text(column)) }

// oneOf is word for a column that takes one of a few; anything else is "", and the
// schema has said so.
func (r row) oneOf(column string) string {
	if w := r.word(column); slices.Contains(schema.Words(r.t.Kind, column), w) {
		return w
	}
	return ""
}

// misspelt tells whether a column of which oneOf gave a word says something else.
func (r row) misspelt(column, word string) bool { return word == "" && r.text(column) != "" }

// at gives the place of a column's cell, also where it is blank; where the sheet has
// no such column it is the record's first cell.
func (r row) at(column string) cell.Place {
	if f, ok := r.field(column); ok {
		return r.place(f)
	}
	for _, c := range r.t.Columns {
		if c.Known && c.Name == column {
			return r.t.In(r.r, &c)
		}
	}
	return r.first()
}

func (r row) first() cell.Place { return r.t.First(r.r) }

// picture gives the file that the row names, with the cell.
func (r row) picture() model.Picture {
	if name := r.text("Picture"); name != "" {
		return model.Picture{Name: name, At: r.at("Picture")}
	}
	return model.Picture{}
}

// whole gives a whole number, and false where the cell is blank or its schema has
// already told what is wrong with it.
func (r row) whole(column string) (int, bool) {
	f, ok := r.field(column)
	if !ok || f.Broken {
		return 0, false
	}
	n, err := strconv.Atoi(strings.TrimSpace(f.Text))
	return n, err == nil
}

// number gives an exact number: the shortest decimal that reads back to the cell's
// double is what was typed.
func (r row) number(column string) model.Number {
	f, ok := r.field(column)
	if !ok || f.Broken || f.Kind != sheets.Number || f.Number() < 0 || f.Number() > 1e15 {
		return model.Number{}
	}
	n, ok := new(big.Rat).SetString(f.Text)
	if !ok {
		return model.Number{}
	}
	return model.Number{Rat: n}
}
