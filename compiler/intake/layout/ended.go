package layout

import (
	"fmt"
	"strings"

	"ferrule/compiler/intake/table"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// Ended tells of plans that no sheet was read by, and of rows that did nothing on any sheet.
// taken says of a sheet that it is of a kind and is read as such.
func (s *Set) Ended(sheets []cell.Sheet, kinds func(name string) bool, report func(*table.Fault)) {
	for _, p := range s.Plans {
		if !p.matter {
			p.nowhere(sheets, kinds, report)
			continue
		}
		if p.tableless != nil {
			report(p.tableless)
		}
		p.idle(report)
	}
}

// nowhere tells that the pattern of a plan matches no sheet.
func (p *Plan) nowhere(sheets []cell.Sheet, kinds func(string) bool, report func(*table.Fault)) {
	var names []string
	f := &table.Fault{What: table.Unmatched, Cells: []cell.Place{p.First()}, Fix: "write the name of the sheet as its tab shows it, or * for any run of letters"}
	f.Message = fmt.Sprintf("no sheet is called %s", word.Quote(p.text))
	for i := range sheets {
		names = append(names, sheets[i].Name)
		if !p.about(sheets[i].File, sheets[i].Name) {
			continue
		}
		switch {
		case kinds(sheets[i].Name):
			f.Message = fmt.Sprintf("only sheets of a known kind, such as %s, are called %s, and these are read as what they are", word.Quote(sheets[i].Name), word.Quote(p.text))
			f.Fix = "write the name of the sheet out where it is to be read by these rows"
		case strings.HasPrefix(sheets[i].Name, "_"):
			f.Message = fmt.Sprintf("only %s is called %s, and it is left alone, as its name starts with _", word.Quote(sheets[i].Name), word.Quote(p.text))
			f.Fix = "write the name of the sheet out, or take the _ away"
		default:
			f.Message = fmt.Sprintf("every sheet that is called %s is read by rows that say its name more exactly", word.Quote(p.text))
			f.Fix = "delete these rows, or those that are about single sheets"
		}
		report(f)
		return
	}
	f.Message += word.DidYouMean(p.sheet, names)
	report(f)
}

// idle tells of rows that are about something that no sheet has.
func (p *Plan) idle(report func(*table.Fault)) {
	say := func(r *Row, at cell.Place, message, fix string) {
		if !p.met[r] {
			report(&table.Fault{What: table.Idle, Message: message, Fix: fix, Cells: []cell.Place{at}})
		}
	}
	for _, g := range p.pieces {
		if g.kind == "" || g.failed {
			continue
		}
		for _, m := range g.marks {
			say(m.row, m.row.WhereAt, fmt.Sprintf("the mark %s stands nowhere in the table", word.Quote(m.sign)), "write it as it stands in the cells, or delete the row")
		}
		for _, s := range g.says {
			what := word.Quote(s.old)
			if s.old == "" {
				what = "a blank cell"
			}
			say(s.row, s.row.AsAt, fmt.Sprintf("nowhere in the table does %s stand under %s", what, s.text), "write the old words as they stand in the cells, or delete the row")
		}
		for _, s := range g.skips {
			if s.what == aRowText || s.what == rowNumbers || s.what == aCell {
				say(s.row, s.row.WhereAt, fmt.Sprintf("nothing in the sheet is left out by %s", word.Quote(s.row.Where)), "write the text with which the row begins, or delete the row")
			}
		}
		for _, s := range g.sections {
			say(s.row, s.row.WordAt, "no row of the table is a heading as this row describes it", "write how headings look (bold, merged, or nothing for any row with one filled cell), or delete the row")
		}
	}
}
