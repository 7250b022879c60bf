package layout

import (
	"slices"
	"strings"

	"ferrule/compiler/intake/table"
	"ferrule/schema"
	"ferrule/schema/word"
)

// weigh gives the conditions of a cell a number, equal for cells with the same.
func (g *reading) weigh(o *out) {
	if len(o.signs) == 0 {
		return
	}
	var fields []table.Field
	for _, s := range o.signs {
		fields = append(fields, s.fields...)
	}
	o.key = g.key(fields)
}

// keyOf numbers the conditions of a row, or of a head.
func (g *reading) keyOf(v *variant) int32 {
	fields := v.fields
	for _, s := range v.signs {
		fields = append(slices.Clip(fields), s.fields...)
	}
	return g.key(fields)
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

// key numbers conditions, so that equal ones have one number.
func (g *reading) key(fields []table.Field) int32 {
	if g.partAt < 0 {
		return 0
	}
	b := g.grid.line[:0]
	for i := range fields {
		f := &fields[i]
		if c := &g.columns[f.Column]; g.condition(c.Name) {
			b = append(b, byte(f.Column), byte(f.Column>>8))
			b = append(append(b, f.Text...), 0)
		}
	}
	g.grid.line = b
	if g.grid.keys == nil {
		g.grid.keys = map[string]int32{}
	}
	n, ok := g.grid.keys[string(b)]
	if !ok {
		n = int32(len(g.grid.keys))
		g.grid.keys[string(b)] = n
	}
	return n
}

// condition tells whether a column says which vehicles, or which place of them, a row is about.
func (g *reading) condition(name string) bool {
	c, known := schema.Find(g.kind, name)
	if !known {
		return !strings.HasSuffix(word.Fold(name), " note")
	}
	return c.Holds == schema.HoldsPlatform || c.Holds == schema.HoldsYears || c.Holds == schema.HoldsPosition
}
