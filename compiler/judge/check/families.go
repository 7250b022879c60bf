package check

import (
	"slices"
	"strings"

	"ferrule/compiler/model"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// misplaced is what stands at positions where it does not belong, for one cause.
type misplaced struct {
	position *model.Position
	swapped  *misplaced // the other column, where two have probably changed headings
	whole    bool       // every part of the position in the sheet
	several  bool       // the cells are about several positions of a sheet with one a row
	declared bool       // the position's own Family says so
	family   string     // the first one that is out of place
	usual    string     // what belongs there
	part     *model.Part
	cells    []*model.FitCell
}

// misfits gives, for each cell that is out of place, what it is part of.
type misfits map[*model.FitCell]*misplaced

// placeIn is one position in one sheet.
type placeIn struct {
	sheet    *cell.Sheet
	position *model.Position
}

// census counts what stands where: cells by the family of the part that each offers
// first. Kits are left out, since what one holds is of many families.
type census struct {
	all     map[*model.Position]map[string]int
	in      map[placeIn]map[string]int
	columns []placeIn // in the order of their first cells
	sheets  map[*cell.Sheet][]placeIn
	cells   map[placeIn][]*model.FitCell
	folded  map[*model.Part]string
	names   map[string]string // a family as it is first written
	rule    string            // what makes a blank Family a fault, "" for nothing
}

func newMisfits(cat *model.Catalogue) misfits {
	c := count(cat)
	out := misfits{}
	var found []*misplaced
	for _, col := range c.columns {
		if m := c.misplacedIn(col); m != nil {
			found = append(found, m)
		}
	}
	pairSwapped(found)
	for _, m := range joinLong(found) {
		for _, fc := range m.cells {
			out[fc] = m
		}
	}
	return out
}

func count(cat *model.Catalogue) *census {
	c := &census{all: map[*model.Position]map[string]int{}, sheets: map[*cell.Sheet][]placeIn{}, in: map[placeIn]map[string]int{}, cells: map[placeIn][]*model.FitCell{},
		folded: map[*model.Part]string{}, names: map[string]string{}, rule: familyRule(cat)}
	for _, p := range cat.Parts {
		if f := word.Fold(p.Family); f != "" {
			c.folded[p] = f
			if c.names[f] == "" {
				c.names[f] = p.Family
			}
		}
	}
	at := headcounts{census: c, by: map[*cell.Sheet][]*headcount{}, positions: len(cat.Positions)}
	for _, f := range cat.Fitments {
		for _, fc := range f.Cells {
			c.add(fc, &at)
		}
	}
	for _, col := range at.order {
		c.cells[col.placeIn] = col.cells
		all := c.all[col.position]
		if all == nil && len(col.families) > 0 {
			all = map[string]int{}
			c.all[col.position] = all
		}
		for f, n := range col.families {
			all[f] += n
		}
	}
	return c
}

// headcount is a position in a sheet while its cells are counted.
type headcount struct {
	placeIn
	cells    []*model.FitCell
	families map[string]int
}

// headcounts finds the column of a cell, mostly in the sheet of the cell before.
type headcounts struct {
	*census
	by        map[*cell.Sheet][]*headcount // by position
	positions int
	sheet     *cell.Sheet
	here      []*headcount // of sheet
	order     []*headcount
}

func (x *headcounts) of(fc *model.FitCell) *headcount {
	if x.sheet != fc.At.Sheet || x.here == nil {
		x.sheet, x.here = fc.At.Sheet, x.by[fc.At.Sheet]
		if x.here == nil {
			x.here = make([]*headcount, x.positions)
			x.by[x.sheet] = x.here
		}
	}
	col := x.here[fc.Position.Index]
	if col == nil {
		col = &headcount{placeIn: placeIn{fc.At.Sheet, fc.Position}, families: map[string]int{}}
		x.here[fc.Position.Index] = col
		x.order = append(x.order, col)
		x.in[col.placeIn] = col.families
		x.columns = append(x.columns, col.placeIn)
		x.sheets[col.sheet] = append(x.sheets[col.sheet], col.placeIn)
	}
	return col
}

func (c *census) add(fc *model.FitCell, at *headcounts) {
	if fc.Fits.Outcome != model.Fitted || len(fc.Fits.Alternatives) == 0 {
		return
	}
	f := c.family(fc)
	if f == "" && len(fc.Position.Families) == 0 {
		return // nothing is said of the part, nor of the position
	}
	col := at.of(fc)
	col.cells = append(col.cells, fc)
	if f != "" {
		col.families[f]++
	}
}

// family is that of the part that a cell offers first, "" for a kit and for none.
func (c *census) family(fc *model.FitCell) string {
	part := fc.Fits.Alternatives[0][0].Part
	if part.Kit() {
		return ""
	}
	return c.folded[part]
}

// misplacedIn gives what is out of place in one column, nil for nothing.
func (c *census) misplacedIn(col placeIn) *misplaced {
	switch {
	case col.position.AnyFamily:
		return nil
	case len(col.position.Families) > 0:
		return c.declared(col)
	}
	return c.learned(col)
}

// declared holds a column against what its position's Family says. A part of no family is
// left to family-missing where that tells of it.
func (c *census) declared(col placeIn) *misplaced {
	m := &misplaced{position: col.position, declared: true, usual: word.List(col.position.Families, "or")}
	for _, fc := range c.cells[col] {
		if part := stranger(fc); part != nil && (part.Kit() || missesFamily(part, c.rule) == "") {
			if m.part == nil {
				m.part, m.family = part, part.Family
			}
			m.cells = append(m.cells, fc)
		}
	}
	if m.part == nil {
		return nil
	}
	m.whole = len(m.cells) == len(c.cells[col]) && len(m.cells) > 1
	return m
}

// stranger gives the first part of a cell that does not belong at its position.
func stranger(fc *model.FitCell) *model.Part {
	for _, a := range fc.Fits.Alternatives {
		for _, i := range a {
			if i.Part.Known && !fc.Position.Takes(i.Part) {
				return i.Part
			}
		}
	}
	return nil
}

// most gives the family of most cells, how many those are, and how many all are.
func most(of map[string]int) (family string, n, all int) {
	for f, k := range of {
		all += k
		if k > n || k == n && f < family {
			family, n = f, k
		}
	}
	return family, n, all
}

// without is the position's count less that of one of its columns.
func (c *census) without(col placeIn) map[string]int {
	out := map[string]int{}
	for f, n := range c.all[col.position] {
		if n -= c.in[col][f]; n > 0 {
			out[f] = n
		}
	}
	return out
}

// leastAtHome is how many cells it takes to tell what belongs at a position.
const leastAtHome = 3

// learned holds a column against what stands at its position elsewhere, and at others.
func (c *census) learned(col placeIn) *misplaced {
	here, n, all := most(c.in[col])
	if usual, k, rest := most(c.without(col)); n == all && n > 1 && k >= leastAtHome && 4*k >= 3*rest && usual != here && c.home(here, usual, col, 0) != nil {
		return c.told(col, here, usual)
	}
	if other := c.exchanged(col); other != "" {
		return c.told(col, here, other)
	}
	usual, k, rest := most(c.all[col.position])
	if k < leastAtHome || 4*k < 3*rest {
		return nil
	}
	for f, n := range c.in[col] {
		if f != usual && n == c.all[col.position][f] && k >= 3*n && n+k == rest && c.home(f, usual, col, n) != nil {
			return c.told(col, f, usual)
		}
	}
	return nil
}

func (c *census) told(col placeIn, family, usual string) *misplaced {
	m := &misplaced{position: col.position, family: c.names[family], usual: c.names[usual]}
	for _, fc := range c.cells[col] {
		if c.family(fc) == family {
			m.cells = append(m.cells, fc)
			if m.part == nil {
				m.part = fc.Fits.Alternatives[0][0].Part
			}
		}
	}
	m.whole = len(m.cells) == len(c.cells[col]) && len(m.cells) > 1
	return m
}

// home gives a position other than the column's at which most cells hold a family, and at
// most so many the other one.
func (c *census) home(family, other string, col placeIn, strangers int) *model.Position {
	for q, of := range c.all {
		elsewhere := of
		if strangers == 0 {
			elsewhere = c.without(placeIn{col.sheet, q})
		}
		f, n, all := most(elsewhere)
		if q != col.position && f == family && n >= leastAtHome && 2*n > all && elsewhere[other] <= strangers {
			return q
		}
	}
	return nil
}

// exchanged gives the family of another column of the sheet that would suit the name of
// this one's position better, as this one's would suit that one's; "" for none. Only columns
// that hold one family each are looked at, and only where nothing else says what belongs.
func (c *census) exchanged(col placeIn) string {
	here, n, all := most(c.in[col])
	if n == 0 || n < all || len(c.without(col)) > 0 {
		return ""
	}
	for _, other := range c.sheets[col.sheet] {
		if other == col || len(c.without(other)) > 0 {
			continue
		}
		there, k, rest := most(c.in[other])
		if k == 0 || k < rest || here == there {
			continue
		}
		if suits(col.position, there) > suits(col.position, here) && suits(other.position, here) > suits(other.position, there) {
			return there
		}
	}
	return ""
}

// suits tells how well a family's name goes with that of a position: all its words stand in
// it, or its last one does, or nothing.
func suits(p *model.Position, family string) int {
	have, want := strings.Fields(word.Fold(p.Name)), strings.Fields(family)
	if !slices.ContainsFunc(want, func(w string) bool { return !slices.Contains(have, w) }) {
		return 1 + len(want)
	}
	if slices.Contains(have, want[len(want)-1]) {
		return 1
	}
	return 0
}

// pairSwapped joins whole columns of a sheet that hold each other's families.
func pairSwapped(found []*misplaced) {
	whole := map[*cell.Sheet][]*misplaced{}
	for _, a := range found {
		sheet := a.cells[0].At.Sheet
		if !a.whole {
			continue
		}
		for _, b := range whole[sheet] {
			if a.swapped == nil && b.swapped == nil && holds(a, b) && holds(b, a) {
				a.swapped, b.swapped = b, a
			}
		}
		whole[sheet] = append(whole[sheet], a)
	}
}

// holds tells whether the first one's family is what belongs at the other's position.
func holds(a, b *misplaced) bool {
	if b.declared {
		return a.part != nil && b.position.Takes(a.part)
	}
	return word.Fold(a.family) == word.Fold(b.usual)
}

// leastSorted is how many positions of a sheet with one position a row must be concerned
// for the column to be what is wrong, and not its cells.
const leastSorted = 3

// joinLong makes one of what stands in one column of a sheet with one position a row.
func joinLong(found []*misplaced) []*misplaced {
	type column struct {
		sheet *cell.Sheet
		col   int32
	}
	by := map[column][]*misplaced{}
	for _, m := range found {
		at := m.cells[0].At
		by[column{at.Sheet, at.Pos.Col}] = append(by[column{at.Sheet, at.Pos.Col}], m)
	}
	var out []*misplaced
	for _, m := range found {
		at := m.cells[0].At
		same := by[column{at.Sheet, at.Pos.Col}]
		switch {
		case len(same) < leastSorted:
			out = append(out, m)
		case same[0] == m:
			for _, o := range same[1:] {
				m.cells = append(m.cells, o.cells...)
			}
			m.several, m.whole, m.swapped = true, false, nil
			out = append(out, m)
		}
	}
	return out
}

// missesFamily says why a part needs the family that it lacks, "" where it lacks none.
func missesFamily(p *model.Part, by string) string {
	switch {
	case p.Family != "" || p.Kit() || !p.Listed:
		return ""
	case by != "":
		return by + ", so no such row is about it"
	case p.Line != nil:
		return "a part with a Line size is of some kind"
	}
	return ""
}

// familyRule says which sheet names a family, with the first one; "" for none.
func familyRule(cat *model.Catalogue) string {
	for _, r := range cat.Rules {
		if r.Family != "" {
			return "Compatibility has rules for families (" + r.Family + ")"
		}
	}
	for _, l := range cat.Limits {
		if l.Family != "" {
			return "Limits has rules for families (" + l.Family + ")"
		}
	}
	for _, f := range cat.Figures {
		for _, k := range f.Computed {
			if k.Family != "" {
				return "Calculated has rows for families (" + k.Family + ")"
			}
		}
	}
	return ""
}
