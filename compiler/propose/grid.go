package propose

import (
	"ferrule/compiler/propose/shape"
)

// grid takes columns that stand side by side and hold marks, or parts under vehicles, for one grid.
func (n *Names) grid(all []*column, t *shape.Table) {
	first, last, filled := -1, -1, 0
	for i, c := range all {
		if !n.gridLike(c, all) {
			continue
		}
		if first < 0 {
			first = i
		}
		if c.Filled > 0 {
			last, filled = i, filled+1
		}
	}
	if filled == 0 {
		return
	}
	for i := first; i < len(all); i++ {
		c := all[i]
		if i <= last && !n.gridLike(c, all[first:last+1]) && c.role != Unclear {
			continue // something else stands between
		}
		if n.gridLike(c, all) || i <= last && c.role == Unclear && c.Filled == 0 {
			c.is(Grid, "", Likely, "marks or parts stand under headings that are values")
		}
	}
}

// gridLike tells columns of which the heading is a value and the cells are marks, parts or counts.
func (n *Names) gridLike(c *column, all []*column) bool {
	if c.role != Unclear && c.role != PlaceOf && c.role != Grid || c.Head() == "" {
		return false
	}
	switch value := n.valueHead(c); {
	case c.Filled == 0:
		return value
	case c.Share(shape.Mark) >= 0.6:
		return true
	case c.role == PlaceOf:
		return false
	}
	return n.valueHead(c) && c.Share(shape.Number, shape.Code, shape.Codes, shape.Mark) >= 0.8
}

// valueHead tells headings that name a vehicle or years.
func (n *Names) valueHead(c *column) bool {
	head := c.Head()
	name, _, behind := shape.TrailingYears(head)
	return shape.IsYears(head) || behind || n.Is(AsPlatform, head) || n.Is(AsPlatform, name)
}

// across is what the headings of a grid are.
type across struct {
	columns []*column
	as      string // a column, or one for each row of headings
	sort    Role   // Platform, Years, Place or PartNo
	levels  []Role // what each row of headings is
	split   bool   // years stand behind the names of platforms
	sure    Sure
	why     string
}

// acrossOf says what the headings of a grid are; nil where there is no grid.
func (n *Names) acrossOf(all []*column, t *shape.Table) *across {
	var grid []*column
	for _, c := range all {
		if c.role == Grid {
			grid = append(grid, c)
		}
	}
	if len(grid) == 0 {
		return nil
	}
	a := &across{columns: grid, sure: Likely}
	depth := len(grid[0].Heads)
	for level := range depth {
		role, split, why := n.headsAre(grid, level, all)
		a.levels = append(a.levels, role)
		if split {
			a.split = true
		}
		if why != "" {
			a.why = why
		}
	}
	a.settle(all)
	return a
}

// settle chooses what the headings are, of all their rows together.
func (a *across) settle(all []*column) {
	top, low := a.levels[0], a.levels[len(a.levels)-1]
	a.sort = low
	switch {
	case len(a.levels) == 1 && low == Platform && a.split:
		a.as = "Platform, Years"
	case len(a.levels) == 1:
		a.as = titles[low]
	case len(a.levels) == 2 && top == Platform && low == Years:
		a.sort, a.as = Platform, "Platform / Years"
	case len(a.levels) == 2 && top == Years && low == Platform:
		a.sort, a.as = Platform, "Years / Platform"
	default:
		a.as, a.sure = titles[low], Unsure
	}
}

// titles are the columns that roles are read into.
var titles = map[Role]string{PartNo: "Fits", Name: "Name", Family: "Family", Place: "Position", Platform: "Platform", Years: "Years", Quantity: "Quantity",
	Note: "Note", Source: "Source", Maker: "Maker"}

// headsAre tells what one row of the headings of a grid is.
func (n *Names) headsAre(grid []*column, level int, all []*column) (role Role, split bool, why string) {
	counts := map[Role]int{}
	behind, known, total := 0, 0, 0
	for _, c := range grid {
		text := c.Heads[level]
		if text == "" {
			continue
		}
		total++
		role, declared := n.headIs(text, all)
		counts[role]++
		if declared {
			known++
		}
		if _, _, trails := shape.TrailingYears(text); trails && role != Years {
			behind++
		}
	}
	for _, r := range []Role{Years, Platform, Place, PartNo} {
		if counts[r]*3 >= total*2 && total > 0 {
			return r, r == Platform && behind*2 > total, whyHeads(r, known, behind)
		}
	}
	if has(all, Platform) {
		return Unclear, false, "the headings say nothing that is known"
	}
	return Platform, behind*2 > total, "nothing else in the table names a vehicle"
}

// headIs tells what one heading of a grid is, Unclear where it may be anything, and whether the catalogue
// declares it.
func (n *Names) headIs(text string, all []*column) (role Role, declared bool) {
	name, _, trails := shape.TrailingYears(text)
	switch {
	case n.Is(AsPlatform, text) || n.Is(AsPlatform, name):
		return Platform, true
	case shape.IsYears(text):
		return Years, false
	case n.Is(AsPosition, text):
		return Place, true
	case n.Is(AsPart, text):
		return PartNo, true
	case trails:
		return Platform, false
	case shape.ClassOf(text) == shape.Code && !has(all, PartNo):
		return PartNo, false
	case placeLike(text):
		return Place, false
	}
	return Unclear, false
}

// whyHeads says why the headings of a grid are taken for what they are.
func whyHeads(r Role, known, behind int) string {
	switch {
	case known > 0:
		return "the headings are names of the catalogue"
	case behind > 0:
		return "the headings are names with years behind them"
	case r == Years:
		return "the headings are years"
	case r == Place:
		return "the headings name places"
	}
	return "the headings look like part numbers"
}
