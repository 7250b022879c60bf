// Package repair proposes what to write in place of cells, where one reading of what was meant is left: for
// a person to take or to leave. It guesses nothing: what may have been typed comes from the stage that found
// the fault or from the advice on cells (compiler/bind/mend), and counts only where a single text of it
// reads as the column asks, with names that are declared.
package repair

import (
	"slices"
	"strings"

	"ferrule/compiler/bind"
	"ferrule/compiler/finding"
	"ferrule/compiler/intake/table"
	"ferrule/compiler/model"
)

// Mending knows the cells of a catalogue's tables.
type Mending struct {
	by    map[string]*table.Table
	cat   *model.Catalogue
	words *bind.Words
}

// New keeps the cells of tables, which are gone from these when they are bound.
func New(tables []*table.Table) *Mending {
	p := &Mending{by: map[string]*table.Table{}}
	for _, t := range tables {
		kept := *t
		p.by[t.Sheet.File+"\x00"+t.Sheet.Name] = &kept
	}
	return p
}

// Propose puts repairs on findings about cells of the tables. It takes away what the findings knew for
// it. It is called once, and the cells are let go of.
func (p *Mending) Propose(cat *model.Catalogue, fs []*finding.Finding) {
	p.cat, p.words = cat, bind.NewWords(cat)
	for _, f := range fs {
		if c, ok := p.at(f); ok {
			f.Repair = p.propose(f, c)
		}
		f.Meant = nil
	}
	p.by = nil
}

// filled is a cell with where it stands.
type filled struct {
	*table.Table
	column *table.Column
	field  *table.Field
}

// mendable are the findings that may be mended in the one cell that they are about.
func mendable(c finding.Code) bool {
	switch c {
	case finding.CellLookalike, finding.CellDateMangled, finding.ConditionMalformed, finding.FitmentMalformed, finding.PartUnknown, finding.ReferenceUnknown:
		return true
	}
	return false
}

// at finds the cell that a finding is about.
func (p *Mending) at(f *finding.Finding) (filled, bool) {
	if !mendable(f.Code) || len(f.Cells) != 1 || f.Cells[0].Sheet == nil {
		return filled{}, false
	}
	at := f.Cells[0].Place
	t := p.by[at.Sheet.File+"\x00"+at.Sheet.Name]
	if t == nil {
		return filled{}, false
	}
	i, ok := slices.BinarySearchFunc(t.Records, at.Pos.Row, func(r table.Record, row int32) int { return int(r.Row - row) })
	if !ok {
		return filled{}, false
	}
	fields := t.Records[i].Fields
	for k := range fields {
		if fields[k].At == at.Pos {
			return filled{t, &t.Columns[fields[k].Column], &fields[k]}, true
		}
	}
	return filled{}, false
}

// propose gives the repair of a cell, nil where there is none.
func (p *Mending) propose(f *finding.Finding, c filled) *finding.Repair {
	read := p.reader(c)
	if read == nil {
		return nil
	}
	text, why := "", ""
	switch {
	case f.Code == finding.CellLookalike:
		text, why = only(f.Meant, read), "with the letters that these only look like the name is declared"
	case f.Code == finding.CellDateMangled:
		text, why = only(f.Meant, read), "of what a spreadsheet program makes this date of, it alone is known under "+c.column.Name
	default:
		text, why = p.advised(c)
	}
	if text == "" || text == c.field.Text || !read(text) {
		return nil
	}
	return &finding.Repair{At: f.Cells[0].Place, Old: c.field.Text, New: text, Why: why}
}

// only gives the one text of several that reads, "" where none does or several do.
func only(texts []string, read func(string) bool) string {
	found := ""
	for _, t := range texts {
		switch {
		case !read(t):
		case found != "" && found != t:
			return ""
		default:
			found = t
		}
	}
	return found
}

// squeezed is a cell without white space at its ends and more than one blank inside.
func squeezed(text string) string { return strings.Join(strings.Fields(text), " ") }
