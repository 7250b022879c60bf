package layout

import (
	"slices"
	"strings"

	"ferrule/compiler/intake/table"
	"ferrule/compiler/measure"
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
	g.carried()
	g.heads = slices.DeleteFunc(g.heads, func(h *head) bool { return !g.gathered(h) })
	for _, h := range g.heads {
		h.levels[0].fill(h.col)
	}
}

// carried writes groups of heads over the columns to their right that say nothing in their row.
func (g *reading) carried() {
	for _, o := range g.groups {
		for _, h := range g.heads {
			if h.col > o.col && h.levels[o.level].Value == nil {
				h.levels[o.level] = o.headCell
			}
		}
	}
}

// gathered joins what the rows of a heading say; it tells whether it is one.
func (g *reading) gathered(h *head) bool {
	bottom := int(g.extent.header.To - g.extent.header.From)
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
	return len(parts) > 0 && (own || h.levels[bottom].Value != nil)
}

func (c *headCell) fill(col int32) {
	if c.Value != nil {
		c.col = col
	}
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
