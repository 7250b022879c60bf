// Package layout reads sheets that people already have, by what a Layouts sheet says of them.
//
// A sheet is read in its old shape: a grid with marks, a list with two rows of headings,
// several tables one below the other. What comes of it are tables of the native kinds, whose
// fields know the cells that they were read from; the stages behind know of no layout.
//
// The way: the rows of Layouts sheets (Row) are gathered by what they say under Sheet into
// plans, one a Sheet (New). A plan is understood without any sheet: what cannot be understood is
// told at its row. A sheet is then read by its plan (Read): headings are found, which is where
// rows of Layouts may turn out to be about nothing, and row by row records are made. Every
// filled cell is used by some row of the plan, skipped by one, or told.
package layout

import (
	"strings"

	"ferrule/compiler/intake/table"
	"ferrule/schema"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// The words of a Layouts sheet.
const (
	WordTable   = "table"
	WordIs      = "is"
	WordAcross  = "across"
	WordCells   = "cells"
	WordMark    = "mark"
	WordSplit   = "split"
	WordDown    = "down"
	WordSection = "section"
	WordSkip    = "skip"
	WordSay     = "say"
)

// Row is a row of a Layouts sheet as it stands there. Word is folded.
type Row struct {
	Sheet, Word, Where, As         string
	SheetAt, WordAt, WhereAt, AsAt cell.Place // where blank, the cells that would hold them
}

// Rows gives the rows of the tables that are Layouts sheets, in their order. Broken cells count
// as blank, as they are told.
func Rows(tables []*table.Table) []*Row {
	var out []*Row
	for _, t := range tables {
		if t.Kind != schema.Layouts {
			continue
		}
		for i := range t.Records {
			out = append(out, rowOf(t, &t.Records[i]))
		}
	}
	return out
}

// Fleets parts the rows that are about sheets of fleets, of which a row table says so, from those
// that are about sheets of the catalogue.
func Fleets(rows []*Row) (fleets, others []*Row) {
	about := map[string]bool{}
	for _, r := range rows {
		if r.Word == WordTable && word.Fold(r.As) == schema.Fleet {
			about[word.Fold(r.Sheet)] = true
		}
	}
	for _, r := range rows {
		if about[word.Fold(r.Sheet)] {
			fleets = append(fleets, r)
		} else {
			others = append(others, r)
		}
	}
	return fleets, others
}

func rowOf(t *table.Table, rec *table.Record) *Row {
	r := &Row{}
	for _, to := range []struct {
		column string
		text   *string
		at     *cell.Place
	}{{"Sheet", &r.Sheet, &r.SheetAt}, {"Word", &r.Word, &r.WordAt}, {"Where", &r.Where, &r.WhereAt}, {"As", &r.As, &r.AsAt}} {
		*to.at = t.First(rec)
		for i := range t.Columns {
			if t.Columns[i].Known && t.Columns[i].Name == to.column {
				*to.at = t.In(rec, &t.Columns[i])
			}
		}
		for _, f := range rec.Fields {
			if c := &t.Columns[f.Column]; c.Known && c.Name == to.column && !f.Broken {
				*to.text, *to.at = strings.TrimSpace(f.Text), t.Place(f.At)
			}
		}
	}
	r.Word = word.Fold(r.Word)
	return r
}
