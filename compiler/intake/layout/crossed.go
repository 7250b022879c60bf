package layout

import (
	"fmt"
	"slices"
	"strings"

	"ferrule/compiler/intake/table"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

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
