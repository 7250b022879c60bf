package decide

import (
	"cmp"
	"slices"

	"ferrule/compiler/model"
	"ferrule/compiler/space"
	"ferrule/sheets/cell"
)

// Cell is a fitment cell on one platform.
type Cell struct {
	*model.FitCell
	Box space.Box
}

// Variant is where a position exists with one quantity and one line.
type Variant struct {
	Row   *model.PositionRow
	Where space.Region
}

// Mount is a position as it is on one platform: where it exists there, and what is said of it.
type Mount struct {
	*Platform
	Position *model.Position
	Exists   space.Region
	Variants []Variant // no two share a configuration: of rows that meet, the first holds
	Levels   []Level   // highest precedence first
	Outcome  [model.Outcomes]space.Region

	but         func(*model.FitCell) bool // cells that are not looked at; nil: none
	unsettled   []wrong
	unsettledBy Mention
	mentioned   Mention // made once
}

// Level holds the cells of one precedence.
type Level struct {
	Cells []*Cell      // in the order of file, sheet, row, column
	Open  space.Region // where the position exists and no higher level decides

	agree []agreement // those that were asked for
}

// NewMount works out where the position exists and what is said of it. It runs inside
// Try.
func NewMount(p *Platform, position *model.Position) *Mount {
	pl := Ground(p, position)
	pl.decide()
	return pl
}

// Without is NewMount as it would be without some of the cells. It runs inside Try.
func Without(p *Platform, position *model.Position, but func(*model.FitCell) bool) *Mount {
	pl := &Mount{Platform: p, Position: position, but: but}
	pl.ground()
	pl.decide()
	return pl
}

// Ground is NewMount without the outcomes: where the position exists, and which cells
// decide. It runs inside Try.
func Ground(p *Platform, position *model.Position) *Mount {
	pl := &Mount{Platform: p, Position: position}
	pl.ground()
	return pl
}

func (pl *Mount) ground() {
	pl.exist()
	pl.levels()
	pl.open()
}

// RowsOf gives the Positions rows of a position that are about the platform.
func (p *Platform) RowsOf(position *model.Position) []*model.PositionRow {
	var out []*model.PositionRow
	for _, r := range p.positions {
		if r.Position == position {
			out = append(out, r)
		}
	}
	return out
}

// CellsOf gives the fitment cells of a position, in the order of the rows.
func (p *Platform) CellsOf(position *model.Position) []*Cell { return p.cells[position.Index] }

func (pl *Mount) exist() {
	for _, r := range pl.RowsOf(pl.Position) {
		where := pl.Minus(pl.Intersect(pl.All, pl.Box(pl.Bounds(&r.When))), pl.Exists)
		if where != space.Empty {
			pl.Variants = append(pl.Variants, Variant{r, where})
			pl.Exists = pl.Union(pl.Exists, where)
		}
	}
}

func (pl *Mount) levels() {
	by := map[int][]*Cell{}
	for _, c := range pl.cells[pl.Position.Index] {
		if (pl.but == nil || !pl.but(c.FitCell)) && pl.Meets(pl.Exists, c.Box) {
			by[c.Row.Precedence] = append(by[c.Row.Precedence], c)
		}
	}
	for _, cells := range by {
		slices.SortFunc(cells, func(a, b *Cell) int { return cell.Compare(a.At, b.At) })
		pl.Levels = append(pl.Levels, Level{Cells: cells})
	}
	slices.SortFunc(pl.Levels, func(a, b Level) int {
		return -cmp.Compare(a.Cells[0].Row.Precedence, b.Cells[0].Row.Precedence)
	})
}

// open gives each level where no higher one decides.
func (pl *Mount) open() {
	open := pl.Exists
	for i := range pl.Levels {
		pl.Levels[i].Open = open
		if i < len(pl.Levels)-1 {
			open = pl.Minus(open, pl.UnionBoxes(boxesOf(pl.Levels[i].Cells)))
		}
	}
}

// Decides gives the configurations that a cell of a level decides, alone or with
// others. It runs inside Try.
func (pl *Mount) Decides(level *Level, c *Cell) space.Region {
	if !pl.Reaches(level, c) {
		return space.Empty
	}
	return pl.Intersect(level.Open, pl.Box(c.Box))
}

// Reaches tells whether a cell of a level decides anything.
func (pl *Mount) Reaches(level *Level, c *Cell) bool {
	return level.Open == pl.Exists || pl.Meets(level.Open, c.Box) // each meets where the position exists
}

// Disagree gives where two cells of a level decide and say different things. It runs
// inside Try.
func (pl *Mount) Disagree(level *Level, a, b *Cell) space.Region {
	where := space.Empty
	for _, v := range pl.Variants {
		if pl.Key(a.Fits, v.Row.Quantity) != pl.Key(b.Fits, v.Row.Quantity) {
			where = pl.Union(where, v.Where)
		}
	}
	both, ok := a.Box.Intersect(b.Box)
	if !ok || where == space.Empty {
		return space.Empty
	}
	return pl.Intersect(pl.Intersect(where, level.Open), pl.Box(both))
}
