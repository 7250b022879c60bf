package bind

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"ferrule/compiler/bind/memo"
	"ferrule/compiler/finding"
	"ferrule/compiler/formula"
	"ferrule/compiler/intake/table"
	"ferrule/compiler/measure"
	"ferrule/compiler/model"
	"ferrule/schema/word"
	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// gauge reads one column of values. The column is measured where its header states a
// unit, or where one of its cells does and most of them are numbers: a column of
// sentences in which one begins with `5 mm` is none.
type gauge struct {
	name  string
	unit  measure.Unit // of the header; NoUnit where it states none
	cells []reading
	none  []reading             // that say that there is no such value
	read  [2]memo.Texts[parsed] // of texts and of numbers
}

// reading is what a cell of a gauge says.
type reading struct {
	part     *model.Part
	property int // index into the part's Properties
	at       cell.Place
	text     string
	parsed
}

// parsed is what a text says as a value.
type parsed struct {
	quantity measure.Quantity
	err      error
}

// numeric tells whether a cell holds a value, or begins like one.
func (r reading) numeric() bool { return r.err == nil || !errors.Is(r.err, measure.ErrNoValue) }

// states gives what kind of value a cell states by a unit of its own, also where it
// contradicts itself.
func (r *reading) states() (measure.Dimension, bool) {
	unit := measure.UnitOf(r.err)
	if r.err == nil {
		unit = r.quantity.Unit
	}
	if unit == measure.NoUnit {
		return measure.Dimension{}, false
	}
	return unit.Dimension(), true
}

// gauges holds the columns of one table by their index.
type gauges map[int32]*gauge

// property keeps what a Parts row says under a column of its own, and reads it as a
// value; whether it is one is known when the whole column has been read.
func (b *binder) property(r row, f table.Field, p *model.Part, in gauges) {
	c := r.t.Columns[f.Column]
	g := in[f.Column]
	if g == nil {
		g = &gauge{name: c.Name, unit: headerUnit(c)}
		in[f.Column] = g
	}
	text := strings.TrimSpace(f.Text)
	at := r.place(f)
	if word.Fold(text) == "n/a" {
		g.none = append(g.none, reading{part: p, property: len(p.Properties)})
	} else {
		g.cells = append(g.cells, reading{p, len(p.Properties), at, text, b.parsed(&f, g)})
	}
	p.Properties = append(p.Properties, model.Property{Name: c.Name, Unit: c.Unit, Text: text, At: at})
}

// parsed reads a cell of a column, each text once.
func (b *binder) parsed(f *table.Field, g *gauge) parsed {
	kept := &g.read[0]
	if f.Kind == sheets.Number {
		kept = &g.read[1]
	}
	out, ok := kept.Find(f.Text)
	if !ok {
		out.quantity, out.err = b.quantity(f, g.unit)
		kept.Keep(f.Text, out)
	}
	return out
}

// unitHeaders reports units in the headers of a Parts sheet that are of no use. What
// stands in brackets may be a remark, so that only what is nearly a unit is a warning.
func (b *binder) unitHeaders(t *table.Table) {
	for _, c := range t.Columns {
		unit := headerUnit(c)
		f := &finding.Finding{Code: finding.UnitUnknown, Severity: finding.Warning, Cells: finding.At(t.Place(c.At))}
		switch {
		case c.Unit == "" && !c.Known && roundUnit(c.Name) != "":
			f.Message = fmt.Sprintf("the unit of %q stands in round brackets, so it is a part of the name", c.Name)
			f.Fix = "write " + roundUnit(c.Name)
		case c.Unit == "":
			continue
		case c.Known && c.Name == "Line size":
			if unit == measure.Inch || unit == measure.Millimetre {
				continue
			}
			f.Message, f.Fix = fmt.Sprintf("%q is no unit of line sizes", c.Unit), "write [in] or [mm]"
		case c.Known, unit != measure.NoUnit:
			continue
		default:
			f.Severity = finding.Note
			f.Message = fmt.Sprintf("%q is no unit that is known here, so the values under %s are kept as texts", c.Unit, c.Name)
			if near := word.Nearest(c.Unit, unitSymbols()); near != "" {
				f.Severity, f.Fix = finding.Warning, fmt.Sprintf("write [%s] if that is meant", near)
			}
		}
		b.Report(f)
	}
}

// roundUnit writes a header whose unit stands in round brackets as it is read; "" where
// none stands there.
func roundUnit(name string) string {
	before, after, found := strings.Cut(name, "(")
	unit, closed := strings.CutSuffix(after, ")")
	if _, known := measure.ParseUnit(unit); !found || !closed || !known || strings.TrimSpace(before) == "" || strings.TrimSpace(unit) == "" {
		return ""
	}
	return fmt.Sprintf("%s [%s]", strings.TrimSpace(before), strings.TrimSpace(unit))
}

func unitSymbols() []string {
	var out []string
	for _, u := range measure.Units() {
		out = append(out, u.String())
	}
	return out
}

// measured tells whether the column is one of values.
func (g *gauge) measured() bool {
	switch {
	case g.unit != measure.NoUnit:
		return true
	case g.threaded():
		return false
	}
	stated, numeric := false, 0
	for _, r := range g.cells {
		if r.numeric() {
			numeric++
		}
		_, ok := r.states()
		stated = stated || ok
	}
	return stated && 2*numeric > len(g.cells)
}

// dimension of the column: its header's, else that of its first cell with a unit, a
// count where no cell states another.
func (g *gauge) dimension() measure.Dimension {
	if g.unit != measure.NoUnit {
		return g.unit.Dimension()
	}
	for _, r := range g.cells {
		if d, ok := r.states(); ok && d != measure.Count() {
			return d
		}
	}
	return measure.Count()
}

// gauge gives the properties of a measured column their values, and reports the cells
// that have none.
func (b *binder) gauge(g *gauge) {
	if !g.measured() {
		b.threads(g)
		return
	}
	dimension, told := g.dimension(), map[cell.Place]bool{}
	for _, r := range slices.Concat(g.none, g.cells) {
		r.part.Properties[r.property].Public = true
	}
	var first, other *reading
	for i := range g.cells {
		r := &g.cells[i]
		if r.err != nil || r.quantity.Dimension() != dimension {
			r.part.Properties[r.property].Refused = r.contradicts()
			if !told[r.at] {
				b.unread(g, r, dimension)
			}
			told[r.at] = true // a merged range has one cell for many rows
			continue
		}
		q := &r.part.Properties[r.property]
		q.Quantity = r.quantity
		switch system := r.quantity.Unit.System(); {
		case system == measure.NoSystem:
		case first == nil:
			first = r
		case other == nil && system != first.quantity.Unit.System():
			other = r
		}
	}
	if other != nil {
		b.mixed(first.at, other.at, fmt.Sprintf("%s holds values in both systems, %s and %s", g.name, first.quantity.Unit, other.quantity.Unit), "")
	}
}

// unread reports a cell of a measured column that is no value of its dimension.
func (b *binder) unread(g *gauge, r *reading, dimension measure.Dimension) {
	switch {
	case r.err == nil:
		b.fail(finding.QuantityMalformed, r.at, "%s is %s, and %s is %s; correct the unit, or write it under another column",
			r.text, formula.Article(r.quantity.Dimension()), g.name, formula.Article(dimension))
	case errors.Is(r.err, measure.ErrUnitless):
		b.fail(finding.SizeUnitless, r.at, "%s", r.err)
	case errors.Is(r.err, measure.ErrDisagree):
		b.fail(finding.QuantityDisagrees, r.at, "%s", r.err)
	case errors.Is(r.err, measure.ErrFraction):
		b.fail(finding.QuantityMalformed, r.at, "%s", r.err)
	case g.unit == measure.NoUnit && !r.numeric():
		// A word among values; what needs the value will say that it is missing.
	default:
		b.say(finding.QuantityMalformed, finding.Warning, r.at, "%s", r.err)
	}
}
