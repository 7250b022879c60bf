package aid

import (
	"ferrule/compiler/intake/table"
	"ferrule/out/markup"
	"ferrule/out/patch"
	"ferrule/sheets/cell"
)

// frame keeps the header in sight and puts a filter on it.
func (s *planned) frame() {
	head := s.table.Columns[0].At
	switch {
	case s.state.Pane:
		s.kept("what stays in sight")
	case head.Row > deepest:
		s.left("its header is row %d, too far down to stay in sight", head.Row)
	default:
		s.aid.Pane = cell.Pos{Row: head.Row + 1, Col: 1}
		if head.Col == 1 {
			s.aid.Pane.Col = 2
		}
		s.added("the header stays in sight")
	}
	if s.state.Filter {
		s.kept("the filter or table")
		return
	}
	last := s.table.Columns[len(s.table.Columns)-1].At.Col
	to := head.Row + 1
	if n := len(s.table.Records); n > 0 {
		to = s.table.Records[n-1].Row
	}
	s.aid.Filter = cell.Range{From: head, To: cell.Pos{Row: min(to, cell.MaxRow), Col: last}}
	s.added("a filter")
}

// widths makes columns as wide as what they hold, of which nobody has said anything.
func (s *planned) widths() {
	n := 0
	for i := range s.table.Columns {
		c := &s.table.Columns[i]
		if s.state.Wide(c.At.Col) {
			continue
		}
		n++
		s.aid.Widths = append(s.aid.Widths, patch.Width{Col: c.At.Col, Wide: s.wide[i]})
	}
	if n > 0 {
		s.added("%s", many(n, "the width of a column", "the widths of %d columns"))
	}
}

// measure finds how wide columns should be, in characters.
func (s *planned) measure() {
	longest := make([]int, len(s.table.Columns))
	for r := range s.table.Records {
		for i := range s.table.Records[r].Fields {
			f := &s.table.Records[r].Fields[i]
			longest[f.Column] = max(longest[f.Column], markup.Longest(f.Text))
		}
	}
	for i := range longest {
		s.wide = append(s.wide, markup.Width(s.table.Kind, head(&s.table.Columns[i]), longest[i]))
	}
}

// head is a heading as it stands in its cell.
func head(c *table.Column) string {
	if c.Unit == "" {
		return c.Name
	}
	return c.Name + " [" + c.Unit + "]"
}

// print has the sheet printed as wide as the paper, with its header on every page.
func (s *planned) print() {
	if s.state.Print {
		s.kept("the page set-up")
	} else {
		s.aid.Pages = markup.Pages(s.wide)
		s.added("a page set-up for print")
	}
	if !s.state.Titles {
		s.aid.Title = s.table.Columns[0].At
		s.added("header and first column on every printed page")
	}
}
