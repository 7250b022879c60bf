// Package proposal makes the workbook of a proposal: rows of Layouts, remarks, a preview and drafts.
//
// Everything in it is text, so that no spreadsheet program takes what a workbook says for a formula.
// The drafts and the preview begin with _, so that nothing counts until somebody has renamed it.
package proposal

import (
	"fmt"
	"unicode/utf16"

	"ferrule/compiler/propose"
	"ferrule/out/markup"
	"ferrule/schema"
)

// Sheets gives the sheets of the workbook, in the order in which people look at them.
func Sheets(p *propose.Proposal) []markup.Sheet {
	out := []markup.Sheet{layouts(p), remarks(p)}
	for _, d := range p.Drafts {
		out = append(out, text("_"+schema.Title(d.Kind), d.Columns, d.Rows))
	}
	return append(out, preview(p))
}

// layouts are the proposed rows, in the columns of the format. How sure each is stands under Note.
func layouts(p *propose.Proposal) markup.Sheet {
	var rows [][]string
	for _, r := range p.Rules {
		rows = append(rows, []string{r.Sheet, r.Word, r.Where, r.As, r.Sure.String() + ": " + r.Why})
	}
	return text(schema.Title(schema.Layouts), []string{"Sheet", "Word", "Where", "As", "Note"}, rows)
}

// remarks are what could not be read, or only with a guess, and what reading by the proposal finds fault with.
func remarks(p *propose.Proposal) markup.Sheet {
	rows := [][]string{{"", "", "how to go on", "Layouts counts once this workbook stands beside the one that it is about. Sheets whose names begin with _ are drafts, which nobody reads",
		"look at each row of Layouts, the unsure ones first; then rename the drafts that are right (_Parts to Parts) or copy their rows into your sheets, and delete the others"}}
	for _, r := range p.Remarks {
		rows = append(rows, []string{propose.Places(r.Cells, r.N), r.Says, kind(r), r.Means, r.Write})
	}
	for _, t := range p.Told {
		rows = append(rows, []string{propose.Places(t.Cells, len(t.Cells)), "", "not read", t.Message, t.Fix})
	}
	return text("Remarks", []string{"Cells", "What stands there", "Sort", "What it means", "What to write"}, rows)
}

func kind(r propose.Remark) string {
	if len(r.Cells) == 0 {
		return "draft"
	}
	return "guess or not read"
}

// preview are the rows that come of the proposal, with the cells that each is made of.
func preview(p *propose.Proposal) markup.Sheet {
	columns, at := []string{"Kind", "From"}, map[string]int{}
	for _, v := range p.Preview {
		for _, c := range v.Columns {
			if _, ok := at[c]; !ok {
				at[c] = len(columns)
				columns = append(columns, c)
			}
		}
	}
	var rows [][]string
	for _, v := range p.Preview {
		for _, r := range v.Rows {
			row := make([]string, len(columns))
			row[0], row[1] = schema.Title(v.Kind), propose.Places(r.From, len(r.From))
			for i, t := range r.Texts {
				row[at[v.Columns[i]]] = t
			}
			rows = append(rows, row)
		}
	}
	if p.More > 0 {
		rows = append(rows, append([]string{"", fmt.Sprintf("and %d rows more", p.More)}, make([]string, len(columns)-2)...))
	}
	return text("_Preview", columns, rows)
}

// text makes a sheet of texts alone.
func text(name string, columns []string, rows [][]string) markup.Sheet {
	s := markup.Sheet{Name: name}
	for _, row := range append([][]string{columns}, rows...) {
		var cells []markup.Cell
		for _, t := range row {
			cells = append(cells, markup.Words(fitting(t)))
		}
		s.Rows = append(s.Rows, cells)
	}
	return s
}

// most is how many UTF-16 units a cell holds.
const most = 32_767

// fitting cuts a text that is longer than a cell can be.
func fitting(t string) string {
	units := utf16.Encode([]rune(t))
	if len(units) <= most {
		return t
	}
	return string(utf16.Decode(units[:most-2])) + "…"
}
