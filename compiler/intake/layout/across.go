package layout

import (
	"fmt"
	"slices"
	"strings"

	"ferrule/compiler/intake/table"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// crossing is a column of a grid.
type crossing struct {
	h        *holding
	col      int32
	head     *head
	variants []variant // what its heads say
}

// acrossColumns finds the columns of the grid.
func (g *reading) acrossColumns() {
	for _, h := range g.across {
		if g.extent.header.From == 0 {
			g.r.report(&table.Fault{What: table.Unread, Cells: []cell.Place{h.row.WordAt, g.top.WhereAt},
				Message: "a row across reads heads, and the table has no header", Fix: "write header and its row under Where of the row table"})
			g.fail()
			continue
		}
		rows := int(g.extent.header.To - g.extent.header.From + 1)
		if len(h.levels) > rows {
			g.r.report(&table.Fault{What: table.Unread, Cells: []cell.Place{h.row.AsAt, g.top.WhereAt},
				Message: fmt.Sprintf("%s names %d columns, and the heads have %d rows", said(h.row.As), len(h.levels), rows), Fix: "write a column for each row of heads, or the rows of the header that there are: header 2-3"})
			g.fail()
			continue
		}
		stretch := g.stretch(h)
		if len(stretch) == 0 {
			g.fail()
		}
		for _, x := range stretch {
			g.cross(h, x)
		}
	}
	slices.SortFunc(g.cols, func(a, b *crossing) int { return int(a.col - b.col) })
	g.acrossTargets()
}

// cross adds a column to the grid, unless another row reads it.
func (g *reading) cross(h *holding, x *head) {
	u := g.useOf(x.col)
	switch {
	case len(u.rowed) > 0 && !h.far:
		g.r.report(&table.Fault{What: table.Contradicted, Cells: []cell.Place{h.row.WhereAt, u.rowed[0].row.WhereAt},
			Message: fmt.Sprintf("two rows read the column %s, one by is and one by across", word.Quote(x.text)), Fix: "keep one of the two"})
	case len(u.rowed) > 0 || g.skipping(x.col):
	case u.cross != nil && u.cross.h != h:
		g.r.report(&table.Fault{What: table.Contradicted, Cells: []cell.Place{h.row.WhereAt, u.cross.h.row.WhereAt},
			Message: fmt.Sprintf("two rows across read the column %s", word.Quote(x.text)), Fix: "end the one where the other begins"})
	case u.cross != nil:
	default:
		u.cross = &crossing{h: h, col: x.col, head: x}
		g.cols = append(g.cols, u.cross)
	}
}

// skipping tells whether a row leaves a column out.
func (g *reading) skipping(col int32) bool {
	return slices.ContainsFunc(g.skips, func(s *named) bool {
		if s.what == aColumn {
			return s.col == col
		}
		hits := g.called(s.text)
		return s.what == aHead && len(hits) == 1 && hits[0].col == col
	})
}

// stretch gives the heads that a row across names.
func (g *reading) stretch(h *holding) []*head {
	if hits := g.called(h.row.Where); len(hits) > 0 {
		h.far = false
		return g.only(h, h.row.Where, hits)
	}
	if !h.far {
		return g.listed(h)
	}
	from, okFrom := g.edge(h, h.place, true)
	to, okTo := g.edge(h, h.to, false)
	if !okFrom || !okTo {
		return nil
	}
	if from > to {
		g.r.report(&table.Fault{What: table.Unread, Cells: []cell.Place{h.row.WhereAt},
			Message: fmt.Sprintf("%s stands to the right of %s", word.Quote(h.place.text), word.Quote(h.to.text)), Fix: fmt.Sprintf("write %s … %s", h.to.text, h.place.text)})
		return nil
	}
	var out []*head
	for _, x := range g.heads {
		if x.col >= from && x.col <= to {
			out = append(out, x)
		}
	}
	return out
}

// edge finds the first or the last column of a stretch. A group of heads begins and ends with
// its own columns.
func (g *reading) edge(h *holding, p place, first bool) (int32, bool) {
	if p.what == aHead {
		if cols := g.grouped(p.text); len(cols) > 0 && len(g.called(p.text)) != 1 {
			if first {
				return cols[0], true
			}
			return cols[len(cols)-1], true
		}
	}
	return g.find(h.row, p)
}

// grouped gives the columns below a heading of a group, where they stand side by side.
func (g *reading) grouped(text string) []int32 {
	want := word.Fold(text)
	var out []int32
	var at cell.Pos
	for _, h := range g.heads {
		for n := range len(h.levels) - 1 {
			c := &h.levels[n]
			if c.Value == nil || word.Fold(c.text) != want {
				continue
			}
			if len(out) > 0 && c.at != at {
				return nil // two groups of one name
			}
			at = c.at
			out = append(out, h.col)
		}
	}
	return out
}

// only gives the one head that is meant; several are told.
func (g *reading) only(h *holding, text string, hits []*head) []*head {
	if len(hits) > 1 {
		g.twice(h.row, text, hits)
		return nil
	}
	return hits
}

// listed gives heads that are written out, with commas, semicolons or line breaks between them.
func (g *reading) listed(h *holding) []*head {
	sep := ","
	if strings.ContainsAny(h.row.Where, ";\n") {
		sep = ";"
	}
	var out []*head
	for _, name := range strings.Split(strings.ReplaceAll(h.row.Where, "\n", sep), sep) {
		if name = strings.TrimSpace(name); name == "" {
			continue
		}
		p := placeOf(name)
		if cols := g.grouped(name); p.what == aHead && len(cols) > 0 && len(g.called(name)) == 0 {
			for _, col := range cols {
				out = append(out, g.headOf(col))
			}
			continue
		}
		if col, ok := g.find(h.row, p); ok {
			if x := g.headOf(col); x != nil {
				out = append(out, x)
			}
		}
	}
	return out
}

// crossed works out what the heads of the grid say.
func (g *reading) crossed() {
	levels := map[*holding][]*column{}
	seen := map[string]*crossing{}
	g.cols = slices.DeleteFunc(g.cols, func(x *crossing) bool {
		if levels[x.h] == nil {
			levels[x.h] = g.headColumns(x.h)
		}
		x.variants = g.headValues(x, levels[x.h])
		key := x.says()
		first := seen[key]
		if first == nil {
			seen[key] = x
			return false
		}
		g.r.report(&table.Fault{What: table.Unmatched, Cells: []cell.Place{{Sheet: g.r.sheet, Pos: x.head.at}, {Sheet: g.r.sheet, Pos: first.head.at}, x.h.row.WhereAt},
			Constant: fmt.Sprintf("the head %s occurs twice among those that are read across", word.Quote(x.head.text)),
			Message:  fmt.Sprintf("the head %s occurs twice among those that are read across, in %s and %s; the second one is not read", word.Quote(x.head.text), first.head.at, x.head.at),
			Fix:      "give one of the two another name, or leave it out by a row skip"})
		return true
	})
}

// says gives what the heads of a column say, equal for two that say the same.
func (x *crossing) says() string {
	var b strings.Builder
	for _, v := range x.variants {
		for _, f := range v.fields {
			fmt.Fprintf(&b, "%d=%s;", f.Column, word.Fold(f.Text))
		}
		if v.part != nil {
			b.WriteString(word.Fold(v.part.Text))
		}
		b.WriteByte('|')
	}
	return b.String()
}

// headColumns makes the columns that heads are values of.
func (g *reading) headColumns(h *holding) []*column {
	var out []*column
	for _, level := range h.levels {
		c := &column{row: h.row, by: h.row.AsAt}
		for _, t := range level {
			if g.takes(t) {
				c.level, c.years = append(c.level, partOf), append(c.years, false)
				continue
			}
			t.name = g.alias(t.name)
			c.level = append(c.level, g.index[word.Fold(t.name)])
			c.years = append(c.years, g.holdsYears(t.name))
		}
		for _, s := range g.says {
			if s.what == theHeads || s.what == aHead && g.saysOf(s, level) {
				c.says = append(c.says, s)
			}
		}
		for _, s := range g.splits {
			if s.what == theHeads || s.what == aHead && len(g.called(s.text)) == 0 && slices.ContainsFunc(level, func(t target) bool { return word.Fold(t.name) == word.Fold(s.text) }) {
				c.splits = append(c.splits, s)
			}
		}
		out = append(out, c)
	}
	return out
}

func (g *reading) saysOf(s *say, level []target) bool {
	return slices.ContainsFunc(level, func(t target) bool { return word.Fold(t.name) == word.Fold(s.text) })
}

// acrossTargets makes the columns of the table that heads are values of.
func (g *reading) acrossTargets() {
	for _, h := range g.across {
		at := elsewhere
		for n, level := range h.levels {
			for _, x := range g.cols {
				if x.h == h {
					at = x.head.at
					at.Row = g.extent.header.From + int32(n)
					break
				}
			}
			for _, t := range level {
				if !g.takes(t) {
					t.name = g.alias(t.name)
					g.add(t, at, h.row.AsAt)
				}
			}
		}
	}
}

// headValues works out what the heads of one column say: each row of them goes to its column, or
// all of them together to the one that there is.
func (g *reading) headValues(x *crossing, levels []*column) []variant {
	out := []variant{{}}
	for n, c := range levels {
		v := &held{text(x.head.text), x.head.at}
		if len(levels) > 1 || len(x.head.levels) == 1 || x.head.text == x.head.lowest() {
			k := n
			if len(levels) == 1 {
				k = x.head.bottom()
			}
			if k >= len(x.head.levels) || x.head.levels[k].Value == nil {
				continue
			}
			v = &held{*x.head.levels[k].Value, x.head.levels[k].at}
		}
		rest, signs := g.strip(v)
		for i := range out {
			out[i].signs = append(out[i].signs, signs...)
		}
		out = g.times(out, g.values(c, rest), c)
	}
	for i := range out {
		slices.SortStableFunc(out[i].fields, func(a, b table.Field) int { return int(a.Column - b.Column) })
		out[i].key = g.headKey(g.keyOf(&out[i]))
	}
	return out
}

// bottom gives the lowest row of a heading that says something.
func (h *head) bottom() int {
	for n := len(h.levels) - 1; n >= 0; n-- {
		if h.levels[n].Value != nil {
			return n
		}
	}
	return 0
}

// headKey numbers the conditions of heads among themselves.
func (g *reading) headKey(key int32) int32 {
	if g.headNumbers == nil {
		g.headNumbers = map[int32]int32{}
	}
	n, ok := g.headNumbers[key]
	if !ok {
		n = g.headKeys
		g.headNumbers[key] = n
		g.headKeys++
	}
	return n
}
