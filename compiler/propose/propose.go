// Package propose looks at workbooks as people already keep them and proposes how to read them: rows
// of Layouts, each with how sure it is and why; drafts of what the catalogue lacks; and remarks on
// what it could not read, with what to write. Nothing that it proposes applies itself.
//
// What may limit vehicles is never passed over. A free text that may do so becomes a condition: one of
// the catalogue's where it names a value of it, and else a drafted trait that asks what the text says,
// so that a fit is claimed only where somebody has answered.
//
// The way of a sheet: its shape (package shape), what each column is taken for (roles), what names
// the vehicle and the place of a row (vehicle, place), and from that the rows of Layouts (rules).
package propose

import (
	"fmt"
	"slices"
	"strings"

	"ferrule/compiler/propose/shape"
	"ferrule/schema"
	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// Look looks at a workbook. The error is the one of its reading.
func Look(file string, book *sheets.Book, names *Names) (*Proposal, error) {
	b := &builder{Names: names, file: file, out: &Proposal{}, drafts: newDrafts()}
	for i, info := range book.Sheets() {
		if strings.HasPrefix(info.Name, "_") {
			b.seen(Seen{Sheet: info.Name, What: "left alone, as its name starts with _", Known: true})
			continue
		}
		s, err := shape.Read(book, i)
		if err != nil {
			return nil, err
		}
		b.take(s)
	}
	b.vehiclesInNames()
	for _, p := range b.pages {
		b.propose(p)
	}
	b.out.Drafts = b.drafts.tables(b)
	return b.out, b.try(book)
}

// builder is one look at a workbook.
type builder struct {
	*Names
	file   string
	pages  []*page
	drafts *drafts
	parts  facts // what is said of parts
	out    *Proposal
	shown  int // rows of the preview
}

// page is a sheet that a layout is proposed for.
type page struct {
	*shape.Sheet
	tables  []*shape.Table
	vehicle bool // its name is that of a vehicle
}

func (b *builder) seen(s Seen) { b.out.Seen = append(b.out.Seen, s) }

// take keeps a sheet to be proposed for, unless it is one of the catalogue's already.
func (b *builder) take(s *shape.Sheet) {
	tables := s.Tables(b.usualHead)
	if kind, known := schema.KindOf(s.Name); known && native(kind, tables) {
		b.seen(Seen{Sheet: s.Name, Filled: s.Filled(), Tables: 1, What: "read as it is: a sheet " + schema.Title(kind), Known: true})
		return
	}
	if len(s.Rows) > 0 {
		b.pages = append(b.pages, &page{Sheet: s, tables: tables})
		return
	}
	b.seen(Seen{Sheet: s.Name, What: "empty", Known: true})
}

// native tells whether a table has the headings that a kind needs.
func native(kind string, tables []*shape.Table) bool {
	for _, c := range schema.Columns(kind) {
		if c.Required && !heading(tables, c.Name) {
			return false
		}
	}
	return true
}

func heading(tables []*shape.Table, name string) bool {
	for _, t := range tables {
		for i := range t.Columns {
			if plainHead(t.Columns[i].Head()) == plainHead(name) {
				return true
			}
		}
	}
	return false
}

// remark adds one about some cells; one that says the same of others is about all of them.
func (b *builder) remark(p *page, cells []cell.Pos, says, means, write string) {
	i := slices.IndexFunc(b.out.Remarks, func(o Remark) bool { return o.Says == says && o.Means == means && o.Write == write })
	if i < 0 {
		i = len(b.out.Remarks)
		b.out.Remarks = append(b.out.Remarks, Remark{Says: says, Means: means, Write: write})
	}
	o := &b.out.Remarks[i]
	o.N += len(cells)
	for _, c := range cells[:min(len(cells), max(0, maxCells-len(o.Cells)))] {
		o.Cells = append(o.Cells, At{p.Name, c})
	}
}

// propose proposes for one sheet.
func (b *builder) propose(p *page) {
	if p.Cut > 0 {
		b.remark(p, []cell.Pos{{Row: p.Cut, Col: 1}}, "", fmt.Sprintf("only the rows before %d were looked at: the sheet is very large", p.Cut),
			"hold the rows below against the proposal yourself")
	}
	var what []string
	before := len(b.out.Rules)
	for _, t := range p.tables {
		r := b.read(p, t)
		what = append(what, r.propose())
	}
	if len(what) == 0 {
		what = append(what, "no table was found")
		first := p.Rows[0]
		b.remark(p, []cell.Pos{{Row: first.Number, Col: first.Cells[0].Col}}, first.Cells[0].Text, "no row of headings was found on the sheet",
			`leave the sheet alone (its name may start with _), or write a row of Layouts yourself: table, "header 3", and the kind of sheet`)
	}
	slices.Sort(what)
	b.seen(Seen{Sheet: p.Name, Filled: p.Filled(), Tables: len(p.tables), What: strings.Join(slices.Compact(what), "; "), Understood: len(b.out.Rules) > before})
}
