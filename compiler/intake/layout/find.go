package layout

import (
	"fmt"

	"ferrule/compiler/intake/table"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

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
