package layout

import (
	"fmt"
	"slices"
	"strings"

	"ferrule/compiler/intake/table"
	"ferrule/compiler/measure"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// head is the heading of a column, which may stand in several rows.
type head struct {
	col    int32
	at     cell.Pos   // of its lowest cell
	text   string     // as Layouts writes it: Group / Head
	levels []headCell // by row of the header; the text is "" where none stands
}

// headCell is a cell of a heading.
type headCell struct {
	item
	text string
}

// headRow keeps a row of the header.
func (g *reading) headRow(number int32) {
	n := int(number - g.extent.header.From)
	wide := false
	for _, it := range g.r.items {
		wide = wide || it.wide
	}
	group := number < g.extent.header.To && !wide // a group is written once, over its first column
	var last headCell
	for _, it := range g.r.items {
		v := *it.Value
		it.Value = &v
		c := headCell{it, strings.Join(strings.Fields(it.Text), " ")}
		if group && last.Value != nil {
			g.carry(n, last, it.col)
		}
		h := g.headAt(it.col)
		h.levels[n], last = c, c
	}
	if group && last.Value != nil {
		g.groups = append(g.groups, openGroup{n, last})
	}
}

// openGroup is the last group of a row of the header, which reaches to the last column.
type openGroup struct {
	level int
	headCell
}

// carry gives the columns after a group's first one, up to another, the group's text.
func (g *reading) carry(level int, from headCell, to int32) {
	for col := from.col + 1; col < min(to, from.col+maxWide); col++ {
		g.headAt(col).levels[level] = from
	}
}

// headAt gives the heading of a column, which it makes if there is none.
func (g *reading) headAt(col int32) *head {
	i, ok := slices.BinarySearchFunc(g.heads, col, func(h *head, col int32) int { return int(h.col - col) })
	if !ok {
		g.heads = slices.Insert(g.heads, i, &head{col: col, levels: make([]headCell, g.extent.header.To-g.extent.header.From+1)})
	}
	return g.heads[i]
}

// headed finishes the headings once all rows of the header are read.
func (g *reading) headed() {
	bottom := int(g.extent.header.To - g.extent.header.From)
	for _, o := range g.groups {
		for _, h := range g.heads {
			if h.col > o.col && h.levels[o.level].Value == nil {
				h.levels[o.level] = o.headCell
			}
		}
	}
	g.heads = slices.DeleteFunc(g.heads, func(h *head) bool {
		var parts []string
		own := false
		for n := range h.levels {
			c := &h.levels[n]
			if c.Value == nil {
				continue
			}
			if n > 0 && h.levels[n-1].Value != nil && c.at == h.levels[n-1].at {
				*c = headCell{} // merged over rows: it stands in the upper one
				continue
			}
			own = own || c.at.Col == h.col || c.wide
			h.at = c.at
			parts = append(parts, c.text)
		}
		h.text = strings.Join(parts, " / ")
		// A group alone, carried on to where nothing stands below it, is no heading.
		return len(parts) == 0 || !own && h.levels[bottom].Value == nil
	})
	for _, h := range g.heads {
		h.levels[0].fill(h.col)
	}
}

func (c *headCell) fill(col int32) {
	if c.Value != nil {
		c.col = col
	}
}

// find gives the column that a Where names; what cannot be found, or is there twice, is told.
func (g *reading) find(r *Row, p place) (int32, bool) {
	if p.what == aColumn {
		return p.col, true
	}
	hits := g.called(p.text)
	switch len(hits) {
	case 1:
		return hits[0].col, true
	case 0:
		g.missing(r, p.text)
	default:
		g.twice(r, p.text, hits)
	}
	return 0, false
}

// called gives the headings that a text names: by all of it, else without the unit, else by the
// lowest part alone.
func (g *reading) called(text string) []*head {
	want := word.Fold(text)
	for _, name := range []func(*head) string{
		func(h *head) string { return h.text },
		func(h *head) string { name, _ := unitOf(h.text); return name },
		func(h *head) string { return h.lowest() },
		func(h *head) string { name, _ := unitOf(h.lowest()); return name },
	} {
		var out []*head
		for _, h := range g.heads {
			if word.Fold(name(h)) == want {
				out = append(out, h)
			}
		}
		if len(out) > 0 {
			return out
		}
	}
	return nil
}

// lowest gives the lowest text of a heading.
func (h *head) lowest() string {
	for n := len(h.levels) - 1; n >= 0; n-- {
		if h.levels[n].Value != nil {
			return h.levels[n].text
		}
	}
	return ""
}

func (g *reading) missing(r *Row, text string) {
	names := make([]string, len(g.heads))
	for i, h := range g.heads {
		names[i] = h.text
		if low := h.lowest(); word.Fold(low) == word.Fold(text) {
			names[i] = low
		}
	}
	for _, h := range g.heads {
		names = append(names, h.lowest())
	}
	fix := "write the head as it stands in the sheet, or column C"
	if g.extent.header.From == 0 {
		fix = "write column C where the table has no header, or say in its row table where the heads are"
	}
	g.r.report(&table.Fault{What: table.Unmatched,
		Message: fmt.Sprintf("the sheet %q has no head %s%s%s", g.r.sheet.Name, word.Quote(text), inRows(g.extent.header), word.DidYouMean(text, names)),
		Fix:     fix, Cells: []cell.Place{r.WhereAt, {Sheet: g.r.sheet}},
		Constant: fmt.Sprintf("the sheet %q has no head %s", g.r.sheet.Name, word.Quote(text))})
}

func inRows(s span) string {
	switch {
	case s.From == 0:
		return ", since its table has no header"
	case s.From == s.To:
		return fmt.Sprintf(" in row %d", s.From)
	}
	return fmt.Sprintf(" in rows %d to %d", s.From, s.To)
}

func (g *reading) twice(r *Row, text string, hits []*head) {
	f := &table.Fault{What: table.Unmatched, Constant: fmt.Sprintf("the head %s occurs several times", word.Quote(text))}
	var at, ways []string
	for _, h := range hits {
		f.Cells = append(f.Cells, cell.Place{Sheet: g.r.sheet, Pos: h.at})
		at = append(at, h.at.String())
		if way := "column " + cell.Column(h.col); word.Fold(h.text) == word.Fold(text) || len(g.called(h.text)) > 1 {
			ways = append(ways, way)
		} else {
			ways = append(ways, h.text)
		}
	}
	f.Cells = append([]cell.Place{r.WhereAt}, f.Cells...)
	f.Message = fmt.Sprintf("the head %s occurs %d times, in %s, so nobody can tell which one is meant", word.Quote(text), len(hits), word.List(at, "and"))
	f.Fix = "write " + word.List(ways[:min(len(ways), 4)], "or")
	g.r.report(f)
}

// unitOf splits a unit off a head: `Length [mm]`, and `Length (mm)` or `Length, mm` where that is
// a unit.
func unitOf(text string) (name, unit string) {
	if name, unit = table.Split(text); unit != "" {
		return name, unit
	}
	if n := len(text); n > 0 && text[n-1] == ')' {
		if i := strings.LastIndexByte(text, '('); i > 0 && isUnit(text[i+1:n-1]) {
			return strings.TrimSpace(text[:i]), strings.TrimSpace(text[i+1 : n-1])
		}
	}
	if i := strings.LastIndexByte(text, ','); i > 0 && isUnit(text[i+1:]) {
		return strings.TrimSpace(text[:i]), strings.TrimSpace(text[i+1:])
	}
	return text, ""
}

func isUnit(s string) bool {
	_, ok := measure.ParseUnit(strings.TrimSpace(s))
	return ok
}
