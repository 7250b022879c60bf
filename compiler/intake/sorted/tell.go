package sorted

import (
	"fmt"
	"slices"

	"ferrule/compiler/finding"
	"ferrule/compiler/model"
	"ferrule/schema"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// Tell tells of columns that were sorted alone. It gives all findings: what only follows is
// taken out and counted.
func Tell(columns []*Column, cat *model.Catalogue, others []*finding.Finding) []*finding.Finding {
	if len(columns) == 0 {
		return others
	}
	l := newLook(cat, others)
	told := l.vehicles(columns)
	for _, sheet := range bySheet(columns) {
		if f := l.fitment(sheet); f != nil {
			told = append(told, f)
		}
	}
	return append(l.left(), told...)
}

// bySheet groups the columns of Fitment sheets.
func bySheet(columns []*Column) [][]*Column {
	var out [][]*Column
	var last *cell.Sheet
	for _, c := range columns {
		switch sheet := c.Cells[0].Sheet; {
		case c.Kind != schema.Fitment:
		case sheet != last:
			out, last = append(out, []*Column{c}), sheet
		default:
			out[len(out)-1] = append(out[len(out)-1], c)
		}
	}
	return out
}

// look is what columns are held against.
type look struct {
	cat    *model.Catalogue
	others []*finding.Finding
	gone   map[*finding.Finding]bool
	rows   map[*cell.Sheet][]*model.Fitment
	traits map[string]*model.Trait
	gaps   map[string][]*finding.Finding      // by platform
	at     map[*cell.Sheet][]*finding.Finding // by the sheet of the first cell
}

func newLook(cat *model.Catalogue, others []*finding.Finding) *look {
	l := &look{cat: cat, others: others, gone: map[*finding.Finding]bool{}, rows: map[*cell.Sheet][]*model.Fitment{}, traits: map[string]*model.Trait{}}
	for _, f := range cat.Fitments {
		l.rows[f.At.Sheet] = append(l.rows[f.At.Sheet], f)
	}
	for _, t := range cat.Traits {
		l.traits[word.Fold(t.Name)] = t
	}
	l.index()
	return l
}

// index keeps the findings that nobody has accepted where they are looked for.
func (l *look) index() {
	l.gaps, l.at = map[string][]*finding.Finding{}, map[*cell.Sheet][]*finding.Finding{}
	for _, f := range l.others {
		if f.Accepted != nil || len(f.Cells) == 0 {
			continue
		}
		if f.Code == finding.CoverageGap && f.Severity == finding.Error {
			l.gaps[f.Platform] = append(l.gaps[f.Platform], f)
		}
		l.at[f.Cells[0].Sheet] = append(l.at[f.Cells[0].Sheet], f)
	}
}

// owe counts findings that only follow under what tells of the column. Nothing is held back
// where the order is short, that someone has accepted, or where someone accepts that a column is in order.
func (l *look) owe(cause *finding.Finding, among []*finding.Finding, follows func(*finding.Finding) bool) {
	if cause.Severity < finding.Error || slices.ContainsFunc(l.cat.Acceptances, func(a *model.Acceptance) bool { return a.Code == string(finding.ColumnSorted) }) {
		return
	}
	for _, f := range among {
		if f.Accepted == nil && !l.gone[f] && len(f.Cells) > 0 && follows(f) {
			l.gone[f] = true
			cause.Owe(f.Code, 1)
		}
	}
}

func (l *look) left() []*finding.Finding {
	if len(l.gone) == 0 {
		return l.others
	}
	var out []*finding.Finding
	for _, f := range l.others {
		if !l.gone[f] {
			out = append(out, f)
		}
	}
	return out
}

// So many cells and values in order are hardly there by chance: what tells of them is an error, and
// what follows from them is counted under it. Of fewer, a warning stands beside what is told anyway.
const longOrder, longValues = 6, 3

func told(c *Column, because string) *finding.Finding {
	message := fmt.Sprintf("%s is in order from the top, with no blank between", c.Name)
	switch {
	case len(c.Cells) == 1:
		message = fmt.Sprintf("%s is filled in the first row alone", c.Name)
	case len(c.Cells) < c.Rows:
		message = fmt.Sprintf("%s is in order at the top and blank in all rows below", c.Name)
	}
	severity := finding.Warning
	if len(c.Cells) >= longOrder && c.Values >= longValues {
		severity = finding.Error
	}
	return &finding.Finding{Code: finding.ColumnSorted, Severity: severity, Message: message + ", and " + because,
		Cells: ends(c), Fix: "look whether the column was sorted without the others, and copy it again from where it was right"}
}

// ends gives the first and the last of a column's filled cells.
func ends(c *Column) []finding.Cell {
	if len(c.Cells) == 1 {
		return finding.At(c.Cells[0])
	}
	return finding.At(c.Cells[0], c.Cells[len(c.Cells)-1])
}
