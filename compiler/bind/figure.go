package bind

import (
	"fmt"
	"strings"

	"ferrule/compiler/formula"
	"ferrule/compiler/intake/table"
	"ferrule/compiler/measure"
	"ferrule/compiler/model"
	"ferrule/schema"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// lineSize is the column of Parts that formulas can name beside a catalogue's own.
const lineSize = "Line size"

// figures knows which properties of parts are quantities that formulas may name. Other
// properties are texts and not read as anything else.
type figures struct {
	texts []string // all formulas, folded
	by    map[string]*figureColumn
	list  []*figureColumn
}

// figureColumn is a property while the Parts sheets are read.
type figureColumn struct {
	*model.Figure
	units []measure.Unit
	cells []figureCell
	known bool   // what it measures is known
	stray string // the first cell that is no quantity, with its place
}

// figureCell is what one part says.
type figureCell struct {
	entry
	part     *model.Part
	property int // index into the part's Properties
}

// formulas gathers the texts of all formulas before anything is read that they may name.
func (b *binder) formulas() {
	b.fig.by = map[string]*figureColumn{}
	gather := func(kind string, columns ...string) {
		b.each(kind, func(r row) {
			for _, c := range columns {
				b.fig.texts = append(b.fig.texts, word.Fold(r.text(c)))
			}
		})
	}
	gather(schema.Limits, "Left", "Right")
	gather(schema.Calculated, "Formula", "Name")
}

// figure gives the figure of a name, a new one where a formula may name it; nil where
// none does.
func (b *binder) figure(name string, at cell.Place) *figureColumn {
	key := word.Fold(name)
	if f := b.fig.by[key]; f != nil {
		return f
	}
	for _, text := range b.fig.texts {
		if strings.Contains(text, key) {
			f := &figureColumn{Figure: &model.Figure{Index: len(b.fig.list), Name: name, At: at, Columns: map[*cell.Sheet]int32{}}}
			b.fig.by[key] = f
			b.fig.list = append(b.fig.list, f)
			b.cat.Figures = append(b.cat.Figures, f.Figure)
			return f
		}
	}
	return nil
}

// figureColumns finds the columns of a Parts sheet that formulas may name, nil for the
// others.
func (b *binder) figureColumns(t *table.Table) []*figureColumn {
	out := make([]*figureColumn, len(t.Columns))
	for i, c := range t.Columns {
		if c.Known && c.Name != lineSize {
			continue
		}
		if f := b.figure(c.Name, t.Place(c.At)); f != nil {
			if t.Laid == nil || !t.Laid.Several && c.At.Col > 0 {
				f.Columns[t.Sheet] = c.At.Col
			}
			f.units = append(f.units, headerUnit(c))
			out[i] = f
			if c.Known {
				f.known, f.Dimension = true, measure.Dimension{Length: 1}
			}
		}
	}
	return out
}

// figureCells keeps the cells of a part that are figures, to be read when all are known.
func (b *binder) figureCells(r row, p *model.Part, columns []*figureColumn) {
	property := 0
	for _, f := range r.r.Fields {
		if r.t.Columns[f.Column].Known || f.Broken {
			continue
		}
		if c := columns[f.Column]; c != nil {
			c.cells = append(c.cells, figureCell{entry{f, measure.NoUnit, r.place(f)}, p, property})
		}
		property++
	}
	if c := b.fig.by[word.Fold(lineSize)]; c != nil && p.Line != nil && p.Line.Known() {
		if c.Unit == measure.NoUnit {
			c.Unit = p.Line.Unit
		}
		p.State(c.Figure, measure.New(p.Line.Num, p.Line.Num, p.Line.Unit), p.LineAt)
	}
}

// readFigures takes what parts state of each figure: the values of measured columns, or
// plain numbers where none is measured. A cell that holds neither is told where a limit
// needs it.
func (b *binder) readFigures() {
	for _, f := range b.fig.list {
		if word.Fold(f.Name) == word.Fold(lineSize) {
			continue
		}
		f.measure()
		for i := range f.cells {
			c := &f.cells[i]
			q := c.part.Properties[c.property].Quantity
			if !q.Known() && f.Unit == measure.One {
				q, _ = b.quantity(&c.Field, measure.One)
			}
			switch {
			case q.Known() && q.Dimension() == f.Dimension && q.Bound() == measure.Exactly:
				f.known = true
				c.part.State(f.Figure, q, c.at)
			case f.stray == "":
				f.stray = fmt.Sprintf("%s says %q", c.at, c.Text)
			}
		}
	}
}

// measure finds out what a figure measures: what the first of its headers with a unit
// says, else its first value, else plain numbers.
func (f *figureColumn) measure() {
	for _, u := range f.units {
		if u != measure.NoUnit {
			f.Dimension, f.Unit, f.known = u.Dimension(), u, true
			return
		}
	}
	for _, c := range f.cells {
		if q := c.part.Properties[c.property].Quantity; q.Known() {
			f.Dimension, f.Unit, f.known = q.Dimension(), q.Unit, true
			return
		}
	}
	f.Dimension, f.Unit = measure.Count(), measure.One
}

// figureNames declares the figures for formulas; compiled says that those of Calculated
// sheets have been read.
func (b *binder) figureNames(names *formula.Names, compiled bool) {
	for _, f := range b.fig.list {
		n := formula.Name{Text: f.Name, What: "a property of parts", ID: f.Index, Dim: f.Dimension, Unit: f.Unit}
		switch {
		case len(f.cells) == 0 && len(f.Computed) > 0 && (compiled || !f.known) && f.dead():
			n.Faulty = true
		case f.known:
		case f.stray != "":
			n.Why = fmt.Sprintf("%s is no measured value: %s", f.Name, f.stray)
		default:
			n.Why = fmt.Sprintf("no part states %s, and its header has no unit, so nobody knows what it measures; write a unit into its header", f.Name)
		}
		names.Add(n)
	}
}

// dead tells whether no formula of the figure can be read.
func (f *figureColumn) dead() bool {
	for _, c := range f.Computed {
		if c.Formula != nil {
			return false
		}
	}
	return true
}
