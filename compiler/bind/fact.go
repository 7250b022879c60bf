package bind

import (
	"errors"
	"fmt"

	"ferrule/compiler/finding"
	"ferrule/compiler/formula"
	"ferrule/compiler/intake/table"
	"ferrule/compiler/measure"
	"ferrule/compiler/model"
	"ferrule/compiler/owed"
	"ferrule/schema"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// factColumn is a fact while its sheets are read: the units of its headers, and its
// cells.
type factColumn struct {
	*model.Fact
	known  bool // what it measures is known
	heads  []head
	units  []measure.Unit // of heads
	cells  []entry
	rows   []*model.FactRow // of each cell
	values map[string]int   // magnitudes, to their place in Values
}

// head is a header of a fact.
type head struct {
	t *table.Table
	table.Column
}

// facts reads the Facts sheets: columns that are none of the sheet's and no trait are
// facts.
func (b *binder) facts() {
	by := map[string]*factColumn{}
	b.states = map[*model.FactRow][]*model.Fact{}
	var columns []*factColumn
	for _, t := range b.kinds[schema.Facts] {
		traits, at := b.traitAt(t), make([]*factColumn, len(t.Columns))
		for i, c := range t.Columns {
			if c.Known || traits[i] != nil || b.suspected(t, &t.Columns[i]) != nil || !t.Headed || b.yearsOfFacts(t, i) {
				continue
			}
			key := word.Fold(c.Name)
			if by[key] == nil {
				by[key] = &factColumn{Fact: &model.Fact{Index: len(columns), Name: c.Name, At: t.Place(c.At)}, values: map[string]int{}}
				columns = append(columns, by[key])
			}
			at[i] = by[key]
			at[i].heads = append(at[i].heads, head{t, c})
			at[i].units = append(at[i].units, b.factUnit(t, c))
		}
		for i := range t.Records {
			b.factRow(row{t, &t.Records[i]}, traits, at)
		}
	}
	for _, c := range columns {
		b.cat.Facts = append(b.cat.Facts, c.Fact)
		b.factCells(c)
		if !c.known {
			b.unstated[c.Fact] = true
		}
	}
}

// factUnit reads the unit of a fact's header, and reports one that nobody knows.
func (b *binder) factUnit(t *table.Table, c table.Column) measure.Unit {
	u := headerUnit(c)
	if write := roundUnit(c.Name); c.Unit == "" && write != "" {
		b.fail(finding.UnitUnknown, t.Place(c.At), "the unit of %q stands in round brackets, so it is a part of the name; write %s", c.Name, write)
	}
	if u == measure.NoUnit && c.Unit != "" {
		b.unitUnknown(c.Unit, t.Place(c.At), "the square brackets")
	}
	return u
}

func (b *binder) factRow(r row, traits []*model.Trait, columns []*factColumn) {
	b.first = nil
	fr := &model.FactRow{When: b.when(r, traits), Source: r.text("Source"), At: r.first()}
	fr.Precedence, _ = r.whole("Precedence")
	for _, f := range r.r.Fields {
		if c := columns[f.Column]; c != nil && f.Broken {
			b.lostFact(c, fr, b.told(r.place(f)))
		} else if c != nil && word.Fold(f.Text) != "n/a" {
			c.cells = append(c.cells, entry{f, headerUnit(r.t.Columns[f.Column]), r.place(f)})
			c.rows = append(c.rows, fr)
			b.states[fr] = append(b.states[fr], c.Fact)
		}
	}
	b.cat.FactRows = append(b.cat.FactRows, fr)
	if fr.When.SetAside {
		b.deadFacts(fr, b.blame(r))
	}
}

// factCells reads the cells of a fact, now that all of them are known.
func (b *binder) factCells(c *factColumn) {
	m := b.measuredBy(c.units, c.cells)
	c.Dimension, c.Unit, c.known = m.dim, m.unit, m.known
	if !m.known && len(c.cells) > 0 {
		b.noFact(c)
		return
	}
	told := map[cell.Place]*finding.Finding{}
	for i := range c.cells {
		e := &c.cells[i]
		q, err := b.read(m, e)
		if err == nil && q.Dimension() != m.dim {
			err = fmt.Errorf("%s is %s, and %q is %s; write both in units of one kind", c.Name, formula.Article(m.dim), e.Text, formula.Article(q.Dimension()))
		}
		if err == nil && q.Bound() != measure.Exactly {
			err = fmt.Errorf("%q says how far %s may go, and a fact says what it is; write one value, or both ends of a range", e.Text, c.Name)
		}
		if err != nil {
			if told[e.at] == nil { // a merged range has one cell for many rows
				b.first = nil
				b.badQuantity(e.at, err)
				told[e.at] = b.first
			}
			b.lostFact(c, c.rows[i], told[e.at])
			continue
		}
		v := formula.ValueOf(q)
		at, ok := c.values[v.Key()]
		if !ok {
			at = len(c.Values)
			c.values[v.Key()] = at
			c.Values = append(c.Values, v)
		}
		c.rows[i].Cells = append(c.rows[i].Cells, &model.FactCell{Row: c.rows[i], Fact: c.Fact, Value: at, Quantity: q, Text: e.Text, At: e.at})
	}
}

// lostFact keeps that a cell which is not read would state a fact.
func (b *binder) lostFact(c *factColumn, fr *model.FactRow, cause *finding.Finding) {
	if cause != nil {
		b.Owed.State(owed.Fact{When: fr.When, Facts: map[*model.Fact]bool{c.Fact: true}, Cause: cause})
	}
}

// noFact reports a column under which nothing is a measured value: it is probably a
// misspelt trait, and then its rows are about fewer vehicles than they would say
// without it.
func (b *binder) noFact(c *factColumn) {
	for _, h := range c.heads {
		b.unknownHeader(h.t, h.Column, ", and no cell under it holds a measured value")
	}
	for i, e := range c.cells {
		if h := &c.heads[0]; b.suspected(h.t, &h.Column) != nil && h.t.Sheet == e.at.Sheet {
			c.rows[i].When.SetAside = true
			b.deadFacts(c.rows[i], b.suspects[h.t.Place(h.Column.At)])
		}
	}
}

// badQuantity reports a measured value that cannot be read.
func (b *binder) badQuantity(at cell.Place, err error) {
	code := finding.QuantityMalformed
	switch {
	case errors.Is(err, measure.ErrUnitless):
		code = finding.SizeUnitless
	case errors.Is(err, measure.ErrDisagree):
		code = finding.QuantityDisagrees
	}
	b.fail(code, at, "%s", err)
}

// unitUnknown reports a unit without which a fact or a calculated value is nothing.
func (b *binder) unitUnknown(text string, at cell.Place, where string) {
	say := "write one such as mm, in, kg, lb, N, bar or psi in " + where
	if near := word.Nearest(text, unitSymbols()); near != "" {
		say = "did you mean " + near + "?"
	}
	b.fail(finding.UnitUnknown, at, "%q is no unit that is known; %s", text, say)
}
