package enumerate

import (
	"sort"
	"strings"
)

// sheet begins a sheet in any of the files.
func (g *gen) sheet(name string) *sheet {
	if len(g.c.files) == 0 {
		g.c.files = []string{"catalogue.xlsx", "more rows.xlsx", "Third.xlsm"}[:g.between(1, 3)]
	}
	s := &sheet{file: pick(g, g.c.files), name: name, skip: map[*row]bool{}}
	g.c.sheets = append(g.c.sheets, s)
	return s
}

func (g *gen) condColumns() []column {
	out := []column{{"Platform", ""}, {"Years", ""}}
	for _, t := range g.c.traits {
		out = append(out, column{t.name, ""})
	}
	return out
}

func columns(names ...string) []column {
	var out []column
	for _, name := range names {
		out = append(out, column{name, ""})
	}
	return out
}

// layout makes the sheets around the rows, and the looks of all sheets.
func (g *gen) layout() {
	g.declarations()
	g.vehicleSheets()
	g.ruleSheets()
	g.limitSheets()
	g.extras()
	for _, s := range g.c.sheets {
		g.look(s)
	}
	g.c.files = g.usedFiles()
}

func (g *gen) usedFiles() []string {
	used := map[string]bool{}
	for _, s := range g.c.sheets {
		used[s.file] = true
	}
	var out []string
	for file := range used {
		out = append(out, file)
	}
	sort.Strings(out)
	return out
}

func (g *gen) declarations() {
	s := g.sheet("Platforms")
	s.columns = columns("Platform", "Years", "Maker", "Summary")
	for _, p := range g.c.platforms {
		r := newRow()
		r.cells["Platform"], r.cells["Years"] = p.name, g.yearsText(p.spans)
		s.rows = append(s.rows, r)
	}
	s = g.sheet("Traits")
	s.columns = columns("Trait", "Value", "Kind", "Question", "How to tell", "Effort", "Platform")
	for i := range g.c.traits {
		t := &g.c.traits[i]
		t.rows = g.traitRows(t)
		s.rows = append(s.rows, t.rows...)
	}
	if g.chance(0.3) {
		r := newRow()
		r.cells["Trait"], r.cells["How to tell"] = "Years", "read the plate"
		s.rows = append(s.rows, r)
	}
}

// traitRows declares a trait. Of some traits no value says how to tell it, or
// one says so for one platform only.
func (g *gen) traitRows(t *trait) []*row {
	var out []*row
	silent := g.chance(0.4)
	t.told = map[int]bool{}
	for i, v := range t.values {
		r := newRow()
		r.cells["Trait"], r.cells["Value"] = t.name, v.name
		if strings.Trim(v.name, "0123456789") == "" && g.chance(0.5) {
			r.cells["Value"] = g.yearCell(v.name)
		}
		if i == 0 && (t.kind != "choice" || g.chance(0.5)) {
			r.cells["Kind"] = t.kind
		}
		if !silent && g.chance(0.5) {
			t.told[-1] = true
			r.cells["How to tell"] = "look under the floor"
			r.cells["Effort"] = g.between(1, 5)
		}
		out = append(out, r)
	}
	if g.chance(0.2) {
		r := newRow() // texts for one platform only
		p := g.IntN(len(g.c.platforms))
		t.told[p] = true
		r.cells["Trait"], r.cells["Value"] = t.name, t.values[0].name
		r.cells["Platform"], r.cells["How to tell"] = g.c.platforms[p].name, "look at the plate"
		out = append(out, r)
	}
	return out
}

// vehicleSheets puts the Vehicles rows on one or two sheets.
func (g *gen) vehicleSheets() {
	cut := len(g.c.vehicles)
	if g.chance(0.4) {
		cut = g.IntN(cut) + 1
	}
	for i, part := range [][]*vehicle{g.c.vehicles[:cut], g.c.vehicles[cut:]} {
		if len(part) == 0 {
			continue
		}
		s := g.sheet([]string{"Vehicles", "vehicles of old"}[i])
		s.columns = append(g.condColumns(), columns("On the road", "Note")...)
		for _, v := range part {
			s.rows = append(s.rows, v.row)
		}
	}
}

func (g *gen) ruleSheets() {
	s := g.sheet("Positions")
	s.columns = append(columns("Position", "Side", "Pair", "Quantity", "Coverage", "Air line", "Family", "Summary"), g.condColumns()...)
	for _, p := range g.c.positions {
		for _, r := range p.rows {
			s.rows = append(s.rows, r.row)
		}
	}
	s = g.sheet("Parts")
	s.columns = columns("Part", "Name", "Family", "Status", "Replaced by", "Line size", "Colour")
	if g.c.parts[0].has != nil {
		s.measured = map[string]measured{"Line size": {name: "Line size"}}
		for _, m := range properties() {
			s.columns = append(s.columns, column{name: m.name})
			s.measured[m.name] = m
		}
	}
	for _, p := range g.c.parts {
		s.rows = append(s.rows, p.row)
	}
	if len(g.c.kits) > 0 {
		s = g.sheet("Kits")
		s.columns = columns("Kit", "Part", "Quantity")
		for _, k := range g.c.kits {
			s.rows = append(s.rows, k.rows...)
		}
	}
	if len(g.c.rules) > 0 {
		s = g.sheet("Compatibility")
		s.columns = append(columns("Part", "Family", "With", "Effect", "Reason"), g.condColumns()...)
		for _, r := range g.c.rules {
			s.rows = append(s.rows, r.row)
		}
	}
	if len(g.c.accepts) > 0 {
		s = g.sheet("Accepted")
		s.columns = append(columns("Finding", "Position", "Part", "Reason", "By", "Until"), g.condColumns()...)
		for _, a := range g.c.accepts {
			s.rows = append(s.rows, a.row)
		}
	}
}

// extras are sheets that change no answer.
func (g *gen) extras() {
	if g.chance(0.5) {
		s := g.sheet("Settings")
		s.columns = columns("Setting", "Value")
		r := newRow()
		r.cells["Setting"], r.cells["Value"] = "title", "Ride parts"
		s.rows = append(s.rows, r)
	}
	if g.chance(0.2) {
		s := g.sheet("_scratch")
		s.columns = columns("Platform", "anything")
	}
	if g.chance(0.3) {
		s := g.sheet("References")
		s.columns = columns("Number", "Part", "Source", "Kind")
		r := newRow()
		r.cells["Number"], r.cells["Part"] = "Q 55-1", g.odd(g.c.parts[0].name)
		r.cells["Kind"] = "original"
		s.rows = append(s.rows, r)
	}
}

// look gives a sheet the looks of one: the order of its columns, headers as
// hands write them, titles, empty lines, hidden things.
func (g *gen) look(s *sheet) {
	g.dropBlank(s)
	g.Shuffle(len(s.columns), func(i, j int) { s.columns[i], s.columns[j] = s.columns[j], s.columns[i] })
	for i := range s.columns {
		s.columns[i].head = g.odd(s.columns[i].name)
		if m, ok := s.measured[s.columns[i].name]; ok {
			s.columns[i].head = g.head(m)
		}
	}
	if g.chance(0.15) {
		s.lead = []string{"All of it", "as known today"}[:g.between(1, 2)]
	}
	merged := map[*row]bool{}
	for _, m := range s.merges {
		merged[m.rows[0]] = true
	}
	for _, r := range s.rows {
		s.skip[r] = !merged[r] && g.chance(0.05)
	}
	if g.chance(0.05) && len(s.rows) > 0 {
		s.hideRow = pick(g, s.rows)
	}
	if g.chance(0.05) {
		s.hideColumn = g.between(1, len(s.columns))
	}
	s.hidden = g.chance(0.03)
	g.mergeConditions(s)
	g.mergePositions(s)
}

// dropBlank leaves out some of the columns in which nothing is filled.
func (g *gen) dropBlank(s *sheet) {
	var kept []column
	for _, col := range s.columns {
		_, amounts := s.measured[col.name]
		filled := s.name == "_scratch" || required(col.name) || amounts
		for _, r := range s.rows {
			filled = filled || r.cells[col.name] != nil
		}
		if filled || g.chance(0.4) {
			kept = append(kept, col)
		}
	}
	s.columns = withTheirCells(kept)
}

// withTheirCells drops the columns of notes on cells that the sheet lacks.
func withTheirCells(all []column) []column {
	has := map[string]bool{}
	for _, col := range all {
		has[col.name] = true
	}
	var out []column
	for _, col := range all {
		if position, note := strings.CutSuffix(col.name, " note"); !note || has[position] {
			out = append(out, col)
		}
	}
	return out
}

// required names the columns that a sheet keeps although nothing is in them.
func required(column string) bool {
	return column == "Platform" || column == "Position" || column == "Fits"
}

// mergeConditions joins the cells of a column where neighbouring rows say the
// same, except in a first column: what is leftmost there is told elsewhere.
func (g *gen) mergeConditions(s *sheet) {
	for _, col := range s.columns[1:] {
		for i := 0; i+1 < len(s.rows); i++ {
			a, b := s.rows[i], s.rows[i+1]
			what := a.cells[col.name]
			plain := col.name == "Platform" || col.name == "Years" || col.name == "Trait"
			if plain && what != nil && what == b.cells[col.name] && g.leftOf(s, col, b) && !s.skip[a] && g.chance(0.7) {
				s.merges = append(s.merges, merge{column: col.name, rows: []*row{a, b}})
				i++
			}
		}
	}
}

// leftOf reports whether a row has something filled to the left of a column.
func (g *gen) leftOf(s *sheet, until column, r *row) bool {
	for _, col := range s.columns {
		if col.name == until.name {
			return false
		}
		if r.cells[col.name] != nil {
			return true
		}
	}
	return false
}
