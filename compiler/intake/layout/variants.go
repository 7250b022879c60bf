package layout

import (
	"slices"

	"ferrule/compiler/intake/table"
	"ferrule/sheets/cell"
)

// variant is one way in which the values of a row go together.
type variant struct {
	fields []table.Field
	part   *table.Field
	signs  []*sign
	key    int32
}

// listRow takes a row of a table without heads across.
func (g *reading) listRow(level []level8) {
	filled := g.claim(level, claimed)
	if !filled {
		return
	}
	variants, at := g.variants()
	if !g.r.make(len(variants), at) {
		return
	}
	for i := range variants {
		v := &variants[i]
		if len(v.fields) > 0 {
			g.emit(v.fields, nil, nil, nil)
		}
	}
}

// variants gives the rows that the cells of one row make: one, unless cells are split into
// rows of their own.
func (g *reading) variants() ([]variant, cell.Pos) {
	out := []variant{{}}
	at := g.r.items[0].at
	for _, c := range g.rowed {
		v := g.below(c)
		if v == nil {
			continue
		}
		rest, signs := g.strip(v)
		for i := range out {
			out[i].signs = append(out[i].signs, signs...)
		}
		values := g.values(c, rest)
		if len(values) > 1 {
			at = v.at
		}
		out = g.times(out, values, c)
	}
	for _, s := range g.secs {
		if s.fields != nil {
			out = g.times(out, s.fields, s.column)
		}
	}
	for _, c := range g.fixed {
		out = g.times(out, c.constant, c)
	}
	for i := range out {
		slices.SortStableFunc(out[i].fields, func(a, b table.Field) int { return int(a.Column - b.Column) })
	}
	return out, at
}

// times gives each variant with each of the values.
func (g *reading) times(all []variant, values [][]table.Field, c *column) []variant {
	if len(values) == 0 {
		return all
	}
	if len(all)*len(values) > maxEach {
		values = values[:maxEach/len(all)+1]
		g.r.make(maxEach+1, g.r.at())
	}
	if len(values) == 1 {
		for i := range all {
			all[i].add(values[0])
		}
		return all
	}
	var out []variant
	for _, v := range all {
		for _, fields := range values {
			w := variant{fields: slices.Clone(v.fields), part: v.part, signs: slices.Clone(v.signs)}
			w.add(fields)
			out = append(out, w)
		}
	}
	return out
}

func (v *variant) add(fields []table.Field) {
	for i := range fields {
		if f := fields[i]; f.Column == partOf {
			v.part = &f
		} else {
			v.fields = append(v.fields, f)
		}
	}
}
