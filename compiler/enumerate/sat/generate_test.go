package sat

import (
	"fmt"
	"math/big"
	"math/rand/v2"

	"ferrule/compiler/measure"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
	"ferrule/sheets/cell"
)

// maker makes one random catalogue.
type maker struct {
	*rand.Rand
	cat    *model.Catalogue
	lines  []*model.Trait // those that are sizes
	sheets map[string]*cell.Sheet
	next   map[string]int32 // row to write, by sheet
}

// generate makes the catalogue of a seed: one platform or two, 12 to 30 traits, and
// mostly more configurations than anybody could list (10^8 to 10^18 or so).
func generate(seed uint64) *model.Catalogue {
	m := &maker{Rand: rand.New(rand.NewPCG(seed, 7)), cat: &model.Catalogue{}, sheets: map[string]*cell.Sheet{}, next: map[string]int32{}}
	m.traits(12 + m.IntN(19))
	m.platforms(1 + m.IntN(4)/3)
	m.parts(10 + m.IntN(10))
	for i := range 4 + m.IntN(5) {
		m.position(i)
	}
	for _, pos := range m.cat.Positions {
		m.fitments(pos)
	}
	for range 4 + m.IntN(8) {
		m.rule()
	}
	return m.cat
}

func (m *maker) chance(percent int) bool { return m.IntN(100) < percent }

// at gives the next row of a sheet.
func (m *maker) at(sheet string) cell.Place {
	if m.sheets[sheet] == nil {
		m.sheets[sheet] = &cell.Sheet{File: "made.xlsx", Name: sheet, Order: len(m.sheets)}
		m.next[sheet] = 1
	}
	m.next[sheet]++
	return cell.Place{Sheet: m.sheets[sheet], Pos: cell.Pos{Row: m.next[sheet], Col: 1}}
}

func column(p cell.Place, col int) cell.Place {
	return p.At(cell.Pos{Row: p.Pos.Row, Col: int32(col)})
}

func (m *maker) traits(n int) {
	for i := range n {
		t := &model.Trait{Index: i, Name: fmt.Sprintf("Trait %d", i), Effort: 1, At: m.at("Traits")}
		if i%6 == 2 {
			t.Kind = model.Size
			m.lines = append(m.lines, t)
		}
		for v := range 2 + m.IntN(7) {
			value := &model.Value{Name: fmt.Sprintf("Value %d", v), At: m.at("Traits")}
			if t.Kind == model.Size {
				value.Size = eighths(v + 2)
			}
			t.Values = append(t.Values, value)
		}
		if m.chance(70) {
			v := t.Values[m.IntN(len(t.Values))]
			v.Tell = []model.Tell{{Text: "look at it"}}
		}
		m.cat.Traits = append(m.cat.Traits, t)
	}
}

// eighths gives the size of a tube in eighths of an inch.
func eighths(n int) measure.Size {
	return measure.Size{Line: measure.Tube, Unit: measure.Inch, Num: big.NewRat(int64(n), 8)}
}

func (m *maker) platforms(n int) {
	for i := range n {
		p := &model.Platform{Index: i, Name: fmt.Sprintf("H%d", i), At: m.at("Platforms")}
		hole := 2000 + m.IntN(40)
		for y := 2000; y < 2006+m.IntN(12); y++ {
			if y != hole {
				p.Years = append(p.Years, y)
			}
		}
		m.cat.Platforms = append(m.cat.Platforms, p)
	}
	for _, p := range m.cat.Platforms {
		for range 2 + m.IntN(6) {
			m.vehicles(p)
		}
	}
}

// vehicles adds a row as people write them: each trait has some of its values, or does
// not apply.
func (m *maker) vehicles(p *model.Platform) {
	v := &model.Vehicles{When: model.When{Platforms: []*model.Platform{p}}, At: m.at("Vehicles")}
	if m.chance(70) {
		v.When.Years = m.years(p)
	}
	for _, t := range m.cat.Traits {
		set := space.SetOf(t.Absent())
		switch k := m.IntN(10); {
		case k < 5:
			set = space.All(len(t.Values))
		case k < 9:
			set = m.some(len(t.Values))
		}
		v.When.Traits = append(v.When.Traits, model.TraitSet{Trait: t, Values: set})
	}
	m.cat.Vehicles = append(m.cat.Vehicles, v)
}

// years gives a condition on the year: one range or two, `not`, open ends, and now and
// then none that the platform has.
func (m *maker) years(p *model.Platform) *model.Years {
	first, n := p.Years[0], len(p.Years)
	y := &model.Years{Not: m.chance(10)}
	for range 1 + m.IntN(5)/4 {
		s := model.Span{From: first + m.IntN(n)}
		s.To = s.From + m.IntN(n)
		switch m.IntN(12) {
		case 0:
			s.From = model.FirstYear
		case 1, 2:
			s.To = model.LastYear
		case 3:
			s.From, s.To = s.From+n, s.To+n
		}
		y.Spans = append(y.Spans, s)
	}
	return y
}

// some gives a set of the values 0 to n-1 that is not empty.
func (m *maker) some(n int) space.Set {
	set := space.SetOf(m.IntN(n))
	for range m.IntN(n) {
		set = set.Or(space.SetOf(m.IntN(n)))
	}
	return set
}

func (m *maker) parts(n int) {
	for i := range n {
		p := &model.Part{Number: fmt.Sprintf("P-%d", i), Known: true, Listed: true, Family: fmt.Sprintf("Family %d", m.IntN(4)), At: m.at("Parts")}
		p.LineAt = column(p.At, 6)
		if m.chance(30) {
			size := eighths(2 + m.IntN(6))
			p.Line = &size
		}
		for range m.IntN(3) * m.IntN(2) * m.IntN(2) {
			if i > 0 {
				p.Contents = append(p.Contents, model.Component{Part: m.cat.Parts[m.IntN(i)], Quantity: 1 + m.IntN(2)})
			}
		}
		m.cat.Parts = append(m.cat.Parts, p)
	}
}
