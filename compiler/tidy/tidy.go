// Package tidy makes catalogues as careful people keep them, and messy ones, for tests and
// benchmarks. It knows the format from its page alone.
//
// A catalogue has nine groups of one to three positions. For each platform and group the
// vehicles are split into thirteen boxes that share none, by cutting a box at random along
// one of eight traits or the years, again and again; each box is a row, and each cell of it
// a part, sometimes a choice of two, none with a reason, or planned. Two rows in a hundred
// are left out, one is too wide by a few years, and one is written twice, unless the
// catalogue is to be without such faults; then a pair of positions stands beside them, whose
// parts depend on the side on which a line has a tee, a ninth trait. A platform has 5 to 20 Vehicles rows, each with a
// stretch of years and some values of each trait.
//
// A messy catalogue has the same traits, positions, parts and vehicles, and 120 rows a
// platform that nobody thought through: random conditions on a quarter of the traits, a
// precedence of 0 to 2, and a part in one or two cells at random.
package tidy

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
)

// Sheet is a sheet as texts, its header first.
type Sheet struct {
	Name string
	Rows [][]string
}

// Style is how people lay fitment rows out.
type Style int

const (
	Wide    Style = iota // a sheet for each platform, a column for each position
	Single               // one sheet for all platforms
	Long                 // a position a row
	ByYear               // wide, a row for each year
	PerPart              // a sheet for each group of positions
	Styles               // how many there are
)

type trait struct {
	name   string
	values []string
}

func (m *maker) traits() []trait {
	out := []trait{
		{"Front suspension", []string{"Air beam", "Leaf", "Independent"}},
		{"Rear suspension", []string{"Leaf", "Two air springs", "Four air springs"}},
		{"Axle rating", []string{"6 t", "7 t", "8 t", "9 t", "10 t"}},
		{"Levelling", []string{"Mechanical", "Electronic"}},
		{"Tag axle", []string{"None", "Fixed", "Lift"}},
		{"Steering side", []string{"Left-hand", "Right-hand"}},
		{"Brakes", []string{"Drum", "Disc"}},
		{"Stage", []string{"Stage 1", "Stage 2", "Stage 3", "Stage 4"}},
	}
	if m.tees {
		out = append(out, trait{teeTrait, []string{"None", "Left tee", "Right tee", "Both tees"}})
	}
	return out
}

type place struct{ name, family, prefix string }

// groups are positions whose parts depend on the same things.
func groups() [][]place {
	return [][]place{
		{{"Front damper", "Damper", "HD-"}},
		{{"Drive damper", "Damper", "HD-"}, {"Tag damper", "Damper", "HD-"}},
		{{"Front air spring", "Air spring", "AS"}, {"Drive air spring", "Air spring", "AS"}},
		{{"Front anti-roll bar", "Anti-roll bar", "NB-1"}, {"Front drop link left", "Drop link", "DL "}, {"Front drop link right", "Drop link", "DL "}},
		{{"Rear anti-roll bar", "Anti-roll bar", "NB-2"}},
		{{"Restrictor left", "Flow restrictor", "R"}, {"Restrictor right", "Flow restrictor", "R"}},
		{{"Steering damper", "Steering damper", "SD-"}, {"Steering bracket", "Bracket", "BR-"}},
		{{"Ride-height valve", "Valve", "V."}},
		{{"Brake hose", "Hose", "BH-"}},
	}
}

// groups are those of the catalogue, with the pair that depends on tees last.
func (m *maker) groups() [][]place {
	if m.tees {
		return append(groups(), teePair())
	}
	return groups()
}

// box is some vehicles of a platform: years, and the values of each trait by number.
type box struct {
	from, to int
	values   [][]int
}

type maker struct {
	*rand.Rand
	style  Style
	rows   func(m *maker, platform string, from, to int) // of fitment
	faults bool
	tees   bool // a pair of positions whose parts depend on tees
	messy  bool
	pools  map[string][]string // numbers by family
	sheets []Sheet
}

// Styled makes a tidy catalogue with its few faults in a style; the same seed makes the same.
func Styled(seed uint64, platforms int, style Style) []Sheet {
	m := newMaker(seed, style)
	m.rows, m.faults = (*maker).fitment, true
	return m.make(platforms)
}

// Faultless is Styled without its faults, in the style that goes with the seed: everything is said once, about all vehicles.
func Faultless(seed uint64, platforms int) []Sheet {
	m := newMaker(seed, Style(seed%uint64(Styles)))
	m.rows, m.tees = (*maker).fitment, true
	return m.make(platforms)
}

// Messy makes a messy catalogue on a single fitment sheet; the same seed makes the same.
func Messy(seed uint64, platforms int) []Sheet {
	m := newMaker(seed, Single)
	m.rows, m.messy = (*maker).mess, true
	return m.make(platforms)
}

func newMaker(seed uint64, style Style) *maker {
	return &maker{Rand: rand.New(rand.NewPCG(seed, 18)), style: style, pools: map[string][]string{}}
}

func (m *maker) make(platforms int) []Sheet {
	m.declare(platforms)
	return m.sheets
}

func (m *maker) add(name string, header ...string) *Sheet {
	m.sheets = append(m.sheets, Sheet{Name: name, Rows: [][]string{header}})
	return &m.sheets[len(m.sheets)-1]
}

func (s *Sheet) row(cells ...string) { s.Rows = append(s.Rows, cells) }

func (m *maker) declare(platforms int) {
	m.sheets = make([]Sheet, 0, 8+10*platforms)
	t := m.add("Traits", "Trait", "Value", "Kind", "How to tell")
	for _, tr := range m.traits() {
		for _, v := range tr.values {
			t.row(tr.name, v, "", "Look at it: "+v+".")
		}
	}
	t.row("Years", "", "", "Read the plate.")
	m.places()
	m.parts()
	m.platforms(platforms)
}

// places declares positions; every other catalogue says which families belong there.
func (m *maker) places() {
	s := m.add("Positions", "Position", "Quantity", "Coverage", "Family", "Side", "Pair")
	said := m.IntN(2) == 0
	for _, g := range groups() {
		for _, p := range g {
			family := ""
			if said {
				family = p.family
			}
			s.row(p.name, fmt.Sprint(1+m.IntN(2)), "optional", family)
		}
	}
	if m.tees {
		m.placeTees(s, said)
	}
}

// parts declares the numbers of each family, now and then with one or more left out.
func (m *maker) parts() {
	s := m.add("Parts", "Part", "Name", "Family", "Length [mm]", "Mass [kg]")
	for _, g := range m.groups() {
		for _, p := range g {
			if m.pools[p.family] != nil {
				continue
			}
			number := 100 * (1 + m.IntN(40))
			for range 6 + m.IntN(30) {
				number += 1 + m.IntN(3)*m.IntN(2)
				part := p.prefix + fmt.Sprint(number)
				m.pools[p.family] = append(m.pools[p.family], part)
				s.row(part, p.family, p.family, fmt.Sprint(400+5*m.IntN(60)), fmt.Sprintf("%.1f", 2+m.Float64()*3))
			}
		}
	}
}

func (m *maker) platforms(n int) {
	p := m.add("Platforms", "Platform", "Years")
	header := []string{"Platform", "Years"}
	for _, t := range m.traits() {
		header = append(header, t.name)
	}
	v := m.add("Vehicles", header...)
	for i := range n {
		name := fmt.Sprintf("%c%d", 'A'+byte(i*7%26), 10+i)
		from := 1996 + m.IntN(14)
		to := from + 5 + m.IntN(14)
		p.row(name, fmt.Sprintf("%d-%d", from, to))
		m.vehicles(v, name, from, to)
		m.rows(m, name, from, to)
	}
}

func (m *maker) vehicles(s *Sheet, name string, from, to int) {
	for range 5 + m.IntN(16) {
		a, b := from+m.IntN(to-from+1), from+m.IntN(to-from+1)
		row := []string{name, span(min(a, b), max(a, b))}
		for _, t := range m.traits() {
			row = append(row, strings.Join(m.some(t.values), ", "))
		}
		s.row(row...)
	}
}

// some gives a random set that is not empty, in order.
func (m *maker) some(of []string) []string {
	for {
		var out []string
		for _, v := range of {
			if m.IntN(2) == 0 {
				out = append(out, v)
			}
		}
		if len(out) > 0 {
			return out
		}
	}
}

func span(from, to int) string {
	if from == to {
		return fmt.Sprint(from)
	}
	return fmt.Sprintf("%d-%d", from, to)
}

// boxes is how many boxes a group's vehicles are split into.
const boxes = 13

func (m *maker) split(from, to int) []box { return m.divide(m.whole(from, to), boxes) }

// whole holds all vehicles of a platform.
func (m *maker) whole(from, to int) box {
	all := box{from: from, to: to}
	for _, t := range m.traits() {
		values := make([]int, len(t.values))
		for i := range values {
			values[i] = i
		}
		all.values = append(all.values, values)
	}
	return all
}

// divide cuts a box into so many.
func (m *maker) divide(all box, into int) []box {
	out := []box{all}
	for len(out) < into {
		i := m.IntN(len(out))
		if a, b, ok := m.cut(out[i]); ok {
			out = slices.Replace(out, i, i+1, a, b)
		}
	}
	return out
}

func (m *maker) cut(b box) (box, box, bool) {
	c := box{b.from, b.to, slices.Clone(b.values)}
	k := m.IntN(len(b.values) + 1)
	if k == len(b.values) {
		if b.from == b.to {
			return b, c, false
		}
		at := b.from + m.IntN(b.to-b.from)
		b.to, c.from = at, at+1
		return b, c, true
	}
	v := b.values[k]
	if len(v) < 2 {
		return b, c, false
	}
	at := 1 + m.IntN(len(v)-1)
	b.values = slices.Clone(b.values)
	b.values[k], c.values[k] = v[:at], v[at:]
	return b, c, true
}

// says writes what stands at a position.
func (m *maker) says(p place) string {
	pool := m.pools[p.family]
	part := pool[m.IntN(len(pool))]
	switch n := m.IntN(40); {
	case n < 4:
		if other := pool[m.IntN(len(pool))]; other != part {
			return part + " or " + other
		}
	case n == 4:
		return "none: there is no room for it"
	case n == 5:
		return "planned: being drawn"
	}
	return part
}
