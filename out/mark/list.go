package mark

import (
	"fmt"
	"strings"

	"ferrule/compiler/finding"
	"ferrule/compiler/intake/seal"
	"ferrule/out/patch"
	"ferrule/schema/word"
	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// columns of the list, with their widths in characters.
var columns = []struct {
	name string
	wide float64
}{
	{"Severity", 10}, {"Code", 21}, {"Sheet", 18}, {"Cell", 9}, {"What is wrong", 70}, {"What to do", 48},
	{"Also at", 24}, {"Platform", 14}, {"Position", 18}, {"Part", 14},
}

const headerRow = 4

// list makes the sheet that lists the findings, sealed.
func (b *Book) list(book *sheets.Book) *patch.Sheet {
	s := &patch.Sheet{Name: seal.Sheet, Header: headerRow, Colour: seal.ErrorFill}
	for _, c := range columns {
		s.Widths = append(s.Widths, c.wide)
	}
	s.Rows = [][]patch.Text{{{Text: b.title(), Role: patch.Head}}, {{Text: "?"}}, {{Text: legend}}, header()}
	known := map[string]bool{}
	for _, i := range book.Sheets() {
		known[i.Name] = true
	}
	for i, f := range b.Findings {
		if i == mostRows {
			s.Rows = append(s.Rows, []patch.Text{{Text: fmt.Sprintf("%d more findings are not listed here; ferrule check tells them all", len(b.Findings)-mostRows)}})
			break
		}
		s.Rows = append(s.Rows, b.row(f, known))
	}
	s.Rows[seal.At.Row-1][seal.At.Col-1].Text = seal.List(func(yield func(cell.Pos, string)) {
		for r, row := range s.Rows {
			for c, t := range row {
				yield(cell.Pos{Row: int32(r + 1), Col: int32(c + 1)}, t.Text)
			}
		}
	})
	return s
}

const legend = "Cells with an error are red, with a warning yellow, with a note blue; each has a note that says more. Click a cell's name to go there."

func (b *Book) title() string {
	n := finding.Summarise(b.Findings)
	var parts []string
	for _, c := range []struct {
		n   int
		one string
	}{{n.Errors, "error"}, {n.Warnings, "warning"}, {n.Notes, "note"}} {
		switch c.n {
		case 0:
		case 1:
			parts = append(parts, "1 "+c.one)
		default:
			parts = append(parts, fmt.Sprintf("%d %ss", c.n, c.one))
		}
	}
	return line("Findings in " + b.Name + ": " + word.List(parts, "and"))
}

func header() []patch.Text {
	var out []patch.Text
	for _, c := range columns {
		out = append(out, patch.Text{Text: c.name, Role: patch.Head})
	}
	return out
}

func (b *Book) row(f *finding.Finding, known map[string]bool) []patch.Text {
	message := f.Message
	if follows := f.Following(); follows != "" {
		message += "; " + follows
	}
	row := []patch.Text{{Text: f.Severity.String(), Fill: fillOf(f.Severity)}, {Text: string(f.Code)}, {}, {},
		{Text: line(message)}, {Text: line(f.Fix)}, {Text: b.others(f)},
		{Text: line(f.Platform)}, {Text: line(f.Position)}, {Text: line(f.Part)}}
	for i := range row {
		row[i].Role = patch.Body
	}
	first := b.first(f)
	if first == nil || first.Sheet.Name == "" {
		return row
	}
	row[2].Text = line(first.Sheet.Name)
	at := &row[2]
	if first.Pos != (cell.Pos{}) {
		at = &row[3]
		at.Text = first.Pos.String()
	}
	if known[first.Sheet.Name] {
		at.Role, at.Link = patch.Linked, &patch.Link{Sheet: first.Sheet.Name, At: first.Pos}
	}
	return row
}

// mostOthers is how many further cells are named.
const mostOthers = 20

// others names the further cells of a finding.
func (b *Book) others(f *finding.Finding) string {
	first := b.first(f)
	var out []string
	n := 0
	for i := range f.Cells {
		p := f.Cells[i].Place
		if p.Sheet == nil || first != nil && p == *first {
			continue
		}
		if n++; n > mostOthers {
			continue
		}
		if first == nil {
			out = append(out, p.String())
		} else {
			out = append(out, p.Beside(*first))
		}
	}
	if n > mostOthers {
		out = append(out, fmt.Sprintf("and %d more", n-mostOthers))
	}
	return line(strings.Join(out, ", "))
}
