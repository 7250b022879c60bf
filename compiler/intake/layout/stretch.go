package layout

import (
	"fmt"
	"strings"

	"ferrule/compiler/intake/table"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

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
