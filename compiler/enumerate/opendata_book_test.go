package enumerate

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
)

// openCatalogue is a catalogue over the open data: its sheets, and the same in
// words of SQL.
type openCatalogue struct {
	catalogue
	grouped   map[string]bool // products that have one Vehicles row
	positions []openPosition
	apps      []*application
}

type openPosition struct {
	name, coverage string
	quantity       int
	exists         string // SQL
}

// application is a fitment row over the open data.
type application struct {
	*row
	precedence int
	where      string            // SQL
	says       map[string]string // position to what it comes to
	kinds      map[string]string
}

func openBook(all []*sale, seed uint64) *openCatalogue {
	g := &gen{Rand: rand.New(rand.NewPCG(seed, 1984)), c: &catalogue{}}
	b := &openCatalogue{grouped: map[string]bool{}}
	b.files = []string{"applications.xlsx", "vehicles.xlsx"}
	b.declare(all)
	b.vehicleRows(g, all)
	b.positions = []openPosition{
		{"Front damper", "required", 2, "1"},
		{"Anti-roll bar", "wanted", 1, "(drive IS NULL OR drive NOT IN ('front-wheel drive'))"},
		{"Tow hook", "optional", 1, "year >= 1990 AND fuel IN ('regular', 'premium')"},
	}
	b.positionRows()
	b.partRows()
	for i := range 4 {
		b.appSheet(g, all, i)
	}
	return b
}

func (b *openCatalogue) add(file, name string, cols ...string) *sheet {
	s := &sheet{file: file, name: name, columns: columns(cols...)}
	for i := range s.columns {
		s.columns[i].head = s.columns[i].name
	}
	b.sheets = append(b.sheets, s)
	return s
}

// put appends a row: columns and values by turns.
func (s *sheet) put(what ...any) *row {
	r := newRow()
	for i := 0; i < len(what); i += 2 {
		if what[i+1] != "" {
			r.cells[what[i].(string)] = what[i+1]
		}
	}
	s.rows = append(s.rows, r)
	return r
}

func (b *openCatalogue) declare(all []*sale) {
	platforms := b.add("vehicles.xlsx", "Platforms", "Platform", "Years")
	for _, m := range makes() {
		lo, hi := 9999, 0
		for _, s := range all {
			if s.make == m {
				lo, hi = min(lo, s.year), max(hi, s.year)
			}
		}
		platforms.put("Platform", m, "Years", fmt.Sprintf("%d-%d", lo, hi))
	}
	traits := b.add("vehicles.xlsx", "Traits", "Trait", "Value", "Kind")
	for i, name := range openTraits() {
		kind := "choice"
		if name == "Cylinders" {
			kind = "ordered"
		}
		for _, v := range declared(all, i) {
			traits.put("Trait", name, "Value", v, "Kind", kind)
		}
	}
}

// vehicleRows writes half of the products with all their years in one row,
// and half with a row a year. On the road are the lines of the data.
func (b *openCatalogue) vehicleRows(g *gen, all []*sale) {
	s := b.add("vehicles.xlsx", "Vehicles", append([]string{"Platform", "Years", "On the road"}, openTraits()...)...)
	years, lines := map[string][]string{}, map[string]int{}
	for _, v := range all {
		id := v.product()
		if _, met := b.grouped[id]; !met {
			b.grouped[id] = g.chance(0.5)
		}
		years[id] = append(years[id], strconv.Itoa(v.year))
		lines[id] += v.lines
	}
	for _, v := range all {
		id, year, n := v.product(), strconv.Itoa(v.year), v.lines
		if b.grouped[id] {
			if years[id] == nil {
				continue
			}
			year, n = strings.Join(years[id], ", "), lines[id]
			years[id] = nil
		}
		s.put("Platform", v.make, "Years", year, "On the road", n, "Model", v.values[0],
			"Drive", v.values[1], "Cylinders", v.values[2], "Fuel", v.values[3])
	}
}

func (b *openCatalogue) positionRows() {
	s := b.add("applications.xlsx", "Positions", "Position", "Coverage", "Quantity", "Years", "Drive", "Fuel")
	s.put("Position", b.positions[0].name, "Coverage", "required", "Quantity", 2)
	s.put("Position", b.positions[1].name, "Coverage", "wanted", "Drive", "not Front-Wheel Drive")
	s.put("Position", b.positions[2].name, "Coverage", "optional", "Years", "1990+", "Fuel", "Regular, Premium")
}

func openParts() []string { return []string{"D-1", "D-2", "D-3"} }

func (b *openCatalogue) partRows() {
	s := b.add("applications.xlsx", "Parts", "Part", "Name")
	for _, p := range openParts() {
		s.put("Part", p, "Name", "part "+p)
	}
}

// appSheet writes twenty-five random applications.
func (b *openCatalogue) appSheet(g *gen, all []*sale, i int) {
	cols := append([]string{"Platform", "Years"}, openTraits()...)
	for _, p := range b.positions {
		cols = append(cols, p.name)
	}
	s := b.add("applications.xlsx", fmt.Sprintf("Fitment %d", i+1), append(cols, "Precedence")...)
	for range 25 {
		a := &application{row: newRow(), says: map[string]string{}, kinds: map[string]string{}}
		a.conditions(g, all)
		if a.precedence = g.IntN(8); a.precedence > 0 {
			a.cells["Precedence"] = a.precedence
		}
		for _, p := range b.positions {
			if g.chance(0.7) {
				a.say(g, p)
			}
		}
		s.rows = append(s.rows, a.row)
		b.apps = append(b.apps, a)
	}
}

// say fills one cell. A part alone comes in the position's quantity.
func (a *application) say(g *gen, p openPosition) {
	one, two := pick(g, openParts()), pick(g, openParts())
	type cell struct{ text, kind, say string }
	c := pick(g, []cell{
		{one, "fitted", fmt.Sprintf("%d x %s", p.quantity, one)},
		{one, "fitted", fmt.Sprintf("%d x %s", p.quantity, one)},
		{"2 x " + one, "fitted", "2 x " + one},
		{"1 x " + one + " or 3 x " + two, "fitted", "1 x " + one + " or 3 x " + two},
		{"none", "none", "none"},
		{"planned", "planned", "planned"},
		{"ask which bracket it has", "ask", "ask"},
	})
	a.cells[p.name], a.says[p.name], a.kinds[p.name] = c.text, c.say, c.kind
}

// conditions fills the condition cells, and says the same in SQL.
func (a *application) conditions(g *gen, all []*sale) {
	home := pick(g, all)
	var where []string
	switch g.IntN(12) {
	case 0:
		a.cells["Platform"] = "any"
	case 1:
		other := pick(g, makes())
		a.cells["Platform"] = home.make + ", " + other
		where = append(where, "make IN ("+quoted([]string{home.make, other})+")")
	default:
		a.cells["Platform"] = home.make
		where = append(where, "make IN ("+quoted([]string{home.make})+")")
	}
	if g.chance(0.7) {
		from, to := home.year-g.IntN(12), home.year+g.IntN(12)
		a.cells["Years"] = fmt.Sprintf("%d-%d", from, to)
		where = append(where, fmt.Sprintf("year BETWEEN %d AND %d", from, to))
	}
	for i, trait := range openTraits() {
		if g.chance(0.6) {
			text, sql := openCond(g, all, home, i)
			a.cells[trait] = text
			where = append(where, sql)
		}
	}
	if len(where) == 0 {
		where = []string{"1"}
	}
	a.where = strings.Join(where, " AND ")
}

// openCond is a condition on one trait, near a vehicle that exists.
func openCond(g *gen, all []*sale, home *sale, trait int) (text, sql string) {
	col := strings.ToLower(openTraits()[trait])
	value := home.values[trait]
	if value == "" {
		return "n/a", col + " IS NULL"
	}
	if openTraits()[trait] == "Cylinders" && g.chance(0.6) {
		if g.chance(0.5) {
			return "from " + value, fmt.Sprintf("CAST(%s AS INTEGER) >= %s", col, value)
		}
		return "to " + value, fmt.Sprintf("CAST(%s AS INTEGER) <= %s", col, value)
	}
	values := []string{value}
	for range g.IntN(4) / 3 * g.IntN(200) {
		v := pick(g, all)
		if more := v.values[trait]; v.make == home.make && more != "" && plain(value) && plain(more) && !slices.Contains(values, more) {
			values = append(values, more)
		}
	}
	list := strings.Join(values, ", ")
	if g.chance(0.1) && plain(value) {
		return "not " + list, fmt.Sprintf("(%s IS NULL OR %s NOT IN (%s))", col, col, quoted(values))
	}
	return list, fmt.Sprintf("%s IN (%s)", col, quoted(values))
}

// plain reports whether a name can stand in a list: nothing in it separates.
func plain(name string) bool {
	return !strings.ContainsAny(name, ",;\n") && !strings.Contains(fold(name), " or ")
}

// quoted writes folded names as SQL texts.
func quoted(names []string) string {
	var out []string
	for _, name := range names {
		out = append(out, "'"+strings.ReplaceAll(fold(name), "'", "''")+"'")
	}
	return strings.Join(out, ", ")
}
