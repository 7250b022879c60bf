// Package stray finds rows that stand in a table and are none of its rows: one that
// repeats the header, a total, a heading between the rows, a note below them. Each is told
// as what it is and set aside whole, before anything looks at its cells.
//
// What could be a row of the table is left in it. A row that holds one text alone is
// taken out only where it could not say anything as a row, or where nothing else knows
// its name; the finding says what to fill in if it was meant as one.
package stray

import (
	"unicode/utf8"

	"ferrule/compiler/finding"
	"ferrule/compiler/intake/table"
	"ferrule/schema"
	"ferrule/schema/word"
	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// finding.RowAside is the code of this package.

// Kinds describes the code.
func Kinds() []finding.Kind {
	return []finding.Kind{{Code: finding.RowAside, Severity: "error, or warning where the row repeats the header or is a total",
		Summary: "a row stands in a table and is none of its rows",
		Doc:     "A row that repeats the header, a total, a heading between the rows and a note below them mean something to people and nothing to a table, so they are set aside whole. A heading or a note is an error: what it says may matter, or it may have been meant as a row. Titles stand above the header, groups in a column of their own (Family), notes under Note or on a sheet whose name starts with _. A row that says its name alone is a row of the table where another sheet uses the name.",
		Before:  "Parts!A9  Dampers   (no other cell in row 9)",
		After:   "(the row is deleted; Parts!C10  Damper)"}}
}

// SetAside takes the rows that are none out of the tables, and reports them.
func SetAside(tables []*table.Table, report func(*finding.Finding)) {
	w := &world{tables: tables}
	for _, t := range tables {
		if t.Headed {
			newSearch(t, w).run(report)
		}
	}
}

// what a row is.
type what uint8

const (
	none    what = iota
	repeat       // the header again
	another      // another header
	total
	lone // one text and nothing else
	mark // a note that begins with a sign
)

// search goes through one table.
type search struct {
	*table.Table
	world    *world
	heads    map[string]bool // columns of the sheet and of all kinds, folded
	letters  [256]bool       // that a head begins with
	initials []byte          // of each column's own name, folded; 0 where it has none
	found    [mark + 1][]int // records, by what they are
}

func newSearch(t *table.Table, w *world) *search {
	s := &search{Table: t, world: w, heads: map[string]bool{}}
	add := func(name string) {
		key := word.Fold(name)
		s.heads[key] = true
		s.letters[key[0]] = true
	}
	for _, kind := range schema.Kinds() {
		for _, c := range schema.Columns(kind) {
			add(c.Name)
		}
	}
	for _, c := range t.Columns {
		var first byte
		if c.Name != "" {
			add(c.Name)
			first = word.Fold(c.Name)[0]
		}
		s.initials = append(s.initials, first)
	}
	return s
}

func (s *search) run(report func(*finding.Finding)) {
	aside := map[int]bool{}
	below := false // under another header
	if s.Laid != nil && s.Laid.Several {
		return // its rows are cells of a grid, or pieces of them, and the layout tells of others
	}
	for i := range s.Records {
		is := s.classify(&s.Records[i])
		if is == another {
			below = true
		}
		if is == none && !below {
			continue
		}
		aside[i] = true
		if is != none {
			s.found[is] = append(s.found[is], i)
		}
	}
	if len(aside) == 0 {
		return
	}
	s.tell(aside, report)
	kept := s.Records[:0:0]
	for i := range s.Records {
		if !aside[i] {
			kept = append(kept, s.Records[i])
		}
	}
	s.Records = kept
}

// classify tells what a row is. It is asked of every row, so that what is usual is told
// first.
func (s *search) classify(r *table.Record) what {
	first := &r.Fields[0]
	if first.Kind != sheets.Text && len(r.Fields) > 1 {
		return none
	}
	if s.headed(first) {
		if is := s.header(r); is != none {
			return is
		}
	}
	if isTotal(first.Text) && s.total(r) {
		return total
	}
	if own := single(r); own != nil {
		if own.At.Row == r.Row && s.lone(r, own) {
			return lone
		}
		return none
	}
	if marked(first.Text) && len(r.Fields) <= 3 && !s.world.declares(s.Kind, first.Text) {
		return mark
	}
	return none
}

// single gives the one cell that a row holds, also where it is merged over others; nil
// where there are several.
func single(r *table.Record) *table.Field {
	var own *table.Field
	for i := range r.Fields {
		f := &r.Fields[i]
		switch {
		case f.At.Row < 1: // a layout says it of every row
		case own == nil:
			own = f
		case f.At != own.At:
			return nil
		}
	}
	return own
}

// headed tells whether a cell may say the name of a column.
func (s *search) headed(f *table.Field) bool {
	if f.Text == "" {
		return false
	}
	c := f.Text[0]
	if c >= 'A' && c <= 'Z' {
		c += 'a' - 'A'
	}
	return c <= ' ' || s.letters[c]
}

// header tells whether a row repeats the header, or is another one: all that it says are
// names of columns, or most of it is and stands under them.
func (s *search) header(r *table.Record) what {
	same, heads, own := 0, 0, 0
	var last cell.Pos
	for i := range r.Fields {
		f := &r.Fields[i]
		if f.At == last {
			continue
		}
		last = f.At
		if own++; s.otherwise(f) {
			continue
		}
		if heads+1 < own && 2*same+len(r.Fields)-i < own {
			return none // whatever the rest says
		}
		if heads+1 < own && s.apart(f) {
			continue // no header, and not one that is repeated here
		}
		name := word.Fold(table.Head(f.Text))
		if name == word.Fold(s.Columns[f.Column].Name) {
			same++
		}
		if s.heads[name] {
			heads++
		}
	}
	switch {
	case own == 1 && same == 1 && len(s.Columns) == 1, own > 1 && 2*same > own:
		return repeat
	case own > 1 && heads == own:
		return another
	}
	return none
}

// apart tells at a glance that a cell does not say the name of its own column.
func (s *search) apart(f *table.Field) bool {
	if f.Text == "" || f.Text[0] <= ' ' || f.Text[0] >= utf8.RuneSelf {
		return false
	}
	c := f.Text[0]
	if c >= 'A' && c <= 'Z' {
		c += 'a' - 'A'
	}
	return c != s.initials[f.Column]
}

// otherwise tells at a glance that a cell says the name of no column.
func (s *search) otherwise(f *table.Field) bool {
	return f.Text != "" && f.Text[0] < utf8.RuneSelf && !s.headed(f)
}

// total tells whether a row that begins with such a word holds nothing else but figures.
func (s *search) total(r *table.Record) bool {
	if s.world.declares(s.Kind, r.Fields[0].Text) {
		return false
	}
	for _, f := range r.Fields[1:] {
		if f.At != r.Fields[0].At && f.Kind != sheets.Number && !figure(f.Text) {
			return false
		}
	}
	return true
}
