// Package repair proposes what to write in place of cells, where one reading of what was meant is left: for
// a person to take or to leave. It guesses nothing: what may have been typed comes from the stage that found
// the fault or from the advice on cells (compiler/bind/mend), and counts only where a single text of it
// reads as the column asks, with names that are declared. Advice that adds a word or a number to what was written is
// none, and neither is a part whose number differs in a digit: what is missing in Traits or Parts may be meant.
//
// A date is repaired under sizes and traits only: what else a column holds is not declared, so nothing tells what was
// typed. A lone bare size needs no repair where the header states its unit, since it is read with it; bare
// sizes in a list under a trait get it written behind each.
package repair

import (
	"regexp"
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
	case finding.CellLookalike, finding.CellDateMangled, finding.ConditionMalformed, finding.FitmentMalformed, finding.PartUnknown, finding.ReferenceUnknown,
		finding.SizeUnitless:
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
	case f.Code == finding.SizeUnitless:
		text, why = p.withUnit(c), "the header says that sizes under it are in "+c.column.Unit
	default:
		text, why = p.advised(c)
	}
	if text == "" || text == c.field.Text || !read(text) {
		return nil
	}
	return &finding.Repair{At: f.Cells[0].Place, Old: c.field.Text, New: text, Why: why}
}

// withUnit writes the unit that the header of a trait states behind each bare number of a list: a lone one is
// read with it as it stands.
func (p *Mending) withUnit(c filled) string {
	if t := p.trait(c); t == nil || t.Kind != model.Size || c.column.Unit == "" || p.cat.Settings.DecimalComma {
		return ""
	}
	pieces := strings.Split(c.field.Text, ",")
	for i, piece := range pieces {
		pieces[i] = squeezed(piece)
		if bareSize.MatchString(pieces[i]) {
			pieces[i] += " " + c.column.Unit
		}
	}
	return strings.Join(pieces, ", ")
}

// bareSize is a number as sizes have it and nothing else: 1/2, 1 1/2, 0.5.
var bareSize = regexp.MustCompile(`^[0-9]+(?:[.][0-9]+|(?: [0-9]+)?/[0-9]+)?$`)

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
