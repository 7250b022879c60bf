package judge_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"ferrule/compiler/formula"
	"ferrule/compiler/measure"
	"ferrule/compiler/model"
	"ferrule/sheets/cell"
)

// madeFacts and madeLimits is how many facts and limits a catalogue is given, and
// madeRows into how many rows a sheet of facts splits a platform, of which somewhat more
// than half are about vehicles that exist.
const madeFacts, madeRows, madeLimits = 5, 95, 20

// maker gives a catalogue facts and limits. Two sheets state three facts and two. Fact i
// is as large on each row as the shortest part at position i allows that a vehicle of the
// row may be offered, so that a limit holds on every vehicle and for no part on all
// of them. One value in five thousand is wrong.
type maker struct {
	shape
	testing.TB
	*rand.Rand
	cat    *model.Catalogue
	names  *formula.Names
	stroke map[*model.Part]int
}

// limited adds facts and limits to a catalogue of the shape.
func (s shape) limited(tb testing.TB, cat *model.Catalogue) {
	s.rows, s.slips = madeRows, 2500
	m := maker{s, tb, rand.New(rand.NewPCG(s.seed, 7)), cat, formula.NewNames(), map[*model.Part]int{}}
	m.figures()
	m.facts()
	for _, p := range cat.Platforms {
		m.rowsOf(p)
	}
	m.limits()
}

func (m *maker) mm(n int) (measure.Quantity, formula.Value) {
	q, err := measure.ParseQuantity(fmt.Sprintf("%d mm", n), measure.Options{})
	require.NoError(m, err)
	return q, formula.ValueOf(q)
}

func (m *maker) figures() {
	for i, name := range []string{"Extended", "Compressed"} {
		f := &model.Figure{Index: i, Name: name, Dimension: measure.Dimension{Length: 1}, Unit: measure.Millimetre}
		m.cat.Figures = append(m.cat.Figures, f)
		m.names.Add(formula.Name{Text: name, What: "a property of parts", ID: i, Dim: f.Dimension, Unit: f.Unit})
	}
	for _, p := range m.cat.Parts {
		p.At = place("Parts", 2, 1)
		m.stroke[p] = 240 + m.IntN(80)
		for k, n := range []int{600, 600 - m.stroke[p]} {
			q, v := m.mm(n)
			p.Readings = append(p.Readings, model.Reading{Figure: m.cat.Figures[k], Quantity: q, Value: v, From: []cell.Place{p.At}})
		}
	}
}

// lowest is the least that a fact can be.
const lowest = 150

func (m *maker) facts() {
	for i := range madeFacts {
		f := &model.Fact{Index: i, Name: fmt.Sprintf("Travel %d", i), Dimension: measure.Dimension{Length: 1}, Unit: measure.Millimetre, At: place("Facts", 1, 5+i)}
		for n := range 200 {
			_, v := m.mm(lowest + n)
			f.Values = append(f.Values, v)
		}
		m.cat.Facts = append(m.cat.Facts, f)
		m.names.Add(formula.Name{Text: f.Name, What: "a fact of vehicles", ID: len(m.cat.Figures) + i, Dim: f.Dimension, Unit: f.Unit})
	}
}

func (m *maker) rowsOf(p *model.Platform) {
	for _, of := range [][]*model.Fact{m.cat.Facts[:3], m.cat.Facts[3:]} {
		for _, w := range m.split(m.Rand, m.cat, m.cat.Positions[0], p) {
			if !slices.ContainsFunc(m.cat.Vehicles, func(v *model.Vehicles) bool { return meet(p, &v.When, &w) }) {
				continue
			}
			row := &model.FactRow{When: w, At: place("Facts", len(m.cat.FactRows)+2, 1)}
			for _, f := range of {
				row.Cells = append(row.Cells, &model.FactCell{Row: row, Fact: f, Value: m.value(p, f, &w), Text: "made", At: place("Facts", len(m.cat.FactRows)+2, 5+f.Index)})
			}
			m.cat.FactRows = append(m.cat.FactRows, row)
		}
	}
}

// value gives what a fact is on a row, as an index into its values: what the shortest
// part allows with 62 mm to spare, up to 5 less, or, by a slip, 20 more.
func (m *maker) value(p *model.Platform, f *model.Fact, w *model.When) int {
	least := 320
	for _, r := range m.cat.Fitments[m.first(p):] {
		if r.When.Platforms[0] != p {
			break
		}
		if r.Cells[0].Position.Index == f.Index && meet(p, &r.When, w) {
			least = min(least, m.stroke[r.Cells[0].Fits.Alternatives[0][0].Part])
		}
	}
	least -= 62 + m.IntN(5)
	if m.IntN(5000) == 0 {
		least += 20
	}
	return least - lowest
}

// first gives the first fitment row of a platform.
func (m *maker) first(p *model.Platform) int {
	i, _ := slices.BinarySearchFunc(m.cat.Fitments, p.Index, func(f *model.Fitment, i int) int { return f.When.Platforms[0].Index - i })
	return i
}

// meet tells whether a vehicle of the platform can be in both conditions.
func meet(p *model.Platform, a, b *model.When) bool {
	if a.Platforms[0] != p || !slices.ContainsFunc(p.Years, func(y int) bool { return a.Years.Has(y) && b.Years.Has(y) }) {
		return false
	}
	for _, s := range a.Traits {
		for _, t := range b.Traits {
			if s.Trait == t.Trait && !s.Values.Meets(t.Values) {
				return false
			}
		}
	}
	return true
}

// limits holds the stroke of what is offered at a position against its fact; one limit in
// four needs another fact as well.
func (m *maker) limits() {
	for i := range madeLimits {
		k := i % madeFacts
		right := fmt.Sprintf("Travel %d + %d mm", k, 59+i%4)
		if i%4 == 0 {
			right = fmt.Sprintf("Travel %d + Travel %d / 100 + 57 mm", k, (k+1)%madeFacts)
		}
		rule, err := formula.NewRule(m.parse("Extended - Compressed"), formula.AtLeast, m.parse(right))
		require.NoError(m, err)
		m.cat.Limits = append(m.cat.Limits, &model.Limit{Index: i, Name: fmt.Sprintf("Limit %d", i), Position: m.cat.Positions[k], Rule: rule, At: place("Limits", i+2, 1)})
	}
}

func (m *maker) parse(text string) *formula.Formula {
	f, err := formula.Parse(text, m.names, measure.Options{})
	require.NoError(m, err)
	return f
}

func place(sheet string, row, col int) cell.Place {
	return cell.Place{Sheet: &cell.Sheet{File: "made.xlsx", Name: sheet}, Pos: cell.Pos{Row: int32(row), Col: int32(col)}}
}
