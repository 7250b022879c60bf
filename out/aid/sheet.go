package aid

import (
	"fmt"
	"strings"

	"ferrule/compiler/intake/table"
	"ferrule/out/markup"
	"ferrule/out/patch"
	"ferrule/schema/word"
	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// work is one workbook while it is gone through.
type work struct {
	names  *names
	book   *sheets.Book
	file   string
	states []patch.State
	aids   []patch.Aid
	notes  []patch.Cell
	lists  []*list          // in the hidden sheet
	grown  map[*list]string // formulas, since each looks at the sheet that declares the names
}

// changed gives all that is to be added.
func (w *work) changed() patch.Change {
	return patch.Change{Cells: w.notes, Aids: w.aids, Sheet: w.hidden()}
}

// deepest is how far down a header may stand and still leave most of a screen to what is below it.
const deepest = 8

// sheet sees to one sheet and tells about it.
func (w *work) sheet(i int, name string, t *table.Table) Sheet {
	s := &planned{work: w, state: &w.states[i], table: t, aid: patch.Aid{Sheet: i}, told: Sheet{Name: name}}
	switch {
	case strings.HasPrefix(name, "_"):
		s.left("its name begins with _")
	case t == nil:
		s.left("its name begins with no kind of sheet")
	case t.Laid != nil:
		s.left("it has a shape of its own, which Layouts says how to read")
	case !t.Headed:
		s.left("a column that it must have is missing; ferrule check tells which")
	default:
		s.plan()
	}
	return s.told
}

// planned is one sheet of a workbook on its way.
type planned struct {
	*work
	state *patch.State
	table *table.Table
	aid   patch.Aid
	wide  []float64 // how wide its columns should be
	told  Sheet
}

func (s *planned) left(format string, args ...any) { s.told.Left = fmt.Sprintf(format, args...) }

func (s *planned) kept(what string) { s.told.Kept = append(s.told.Kept, what) }

func (s *planned) added(format string, args ...any) {
	s.told.Added = append(s.told.Added, fmt.Sprintf(format, args...))
}

// plan sees to a sheet of the catalogue.
func (s *planned) plan() {
	s.measure()
	s.columns()
	s.frame()
	s.widths()
	s.print()
	if len(s.told.Added) > 0 {
		s.aids = append(s.aids, s.aid)
	}
}

// columns adds lists and notes.
func (s *planned) columns() {
	var noted, ruled []string
	picks, still, notes := 0, 0, 0
	for i := range s.table.Columns {
		c := &s.table.Columns[i]
		of := s.names.about(s.table, c)
		switch {
		case of.about == "":
		case s.state.Notes[c.At]:
			noted = append(noted, c.Name)
		default:
			s.notes = append(s.notes, patch.Cell{Sheet: s.aid.Sheet, At: c.At, Note: func(string) string { return of.about }})
			notes++
		}
		p := s.pick(c, of)
		switch {
		case p == nil:
			continue
		case s.state.Picked(p.At):
			ruled = append(ruled, c.Name)
		default:
			s.aid.Picks = append(s.aid.Picks, *p)
			picks++
			if of.fixed == nil && !strings.HasPrefix(p.From, growing) {
				still++
			}
		}
	}
	if picks > 0 {
		s.added("%s", many(picks, "a list to pick from", "%d lists to pick from"))
		if still > 0 {
			s.added("%s", many(still, "of which one has the names as they are today", "of which %d have the names as they are today"))
		}
	}
	if notes > 0 {
		s.added("%s", many(notes, "a note on a heading", "notes on %d headings"))
	}
	if n := len(noted); n > 0 {
		s.kept(many(n, "the note on "+noted[0], "the notes on %d headings"))
	}
	if n := len(ruled); n > 0 {
		s.kept(many(n, "the rule for cells under "+ruled[0], "the rules for cells under %d headings"))
	}
}

func many(n int, one, others string) string {
	if n == 1 {
		return one
	}
	return fmt.Sprintf(others, n)
}

// longestTitle and longestPrompt are how many characters a spreadsheet program shows beside a cell
// (Microsoft's documentation of data validation).
const (
	longestTitle  = 32
	longestPrompt = 255
)

// pick gives the list of a column, nil for none.
func (s *planned) pick(c *table.Column, of column) *patch.Pick {
	p := &patch.Pick{At: pickRows(s.table, c.At), Title: cut(c.Name, longestTitle), Prompt: cut(of.about, longestPrompt)}
	switch {
	case of.fixed != nil:
		p.From = inline(of.fixed)
		p.Doubt = cut("This column takes "+word.List(of.fixed, "or")+". Anything else is told as an error.", longestPrompt)
	case of.offer != nil:
		p.From = s.from(of)
	}
	if p.From == "" {
		return nil
	}
	return p
}

func cut(text string, most int) string {
	if r := []rune(text); len(r) > most {
		return string(r[:most-1]) + "…"
	}
	return text
}

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
