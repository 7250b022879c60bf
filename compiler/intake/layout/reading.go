package layout

import (
	"slices"

	"ferrule/compiler/intake/table"
	"ferrule/schema"
	"ferrule/sheets/cell"
)

// reading is one table of a sheet as it is read.
type reading struct {
	*piece
	r      *reader
	sheet  *cell.Sheet // of this table alone, as other tables have theirs
	heads  []*head
	groups []openGroup
	ready  bool
	ended  bool // until was met
	dead   bool // it cannot be read, as was told

	columns []table.Column
	by      []cell.Place
	index   map[string]int // of columns, by folded name
	cellsAt int            // the column of the cells below across; -1 for none
	partAt  int            // the column of parts that marks mean; -1 for none

	use     []use // by column of the sheet
	rowed   []*column
	fixed   []*column // that hold one value for all rows
	cols    []*crossing
	signs   []*sign
	ofCells []*split // of the cells below across
	notes   int      // the column of notes; -1 for none
	secs    []*current
	flips   []*flip // rows that are columns
	labels  *column

	maker       *table.Maker
	headNumbers map[int32]int32 // by key
	headKeys    int32           // how many numbers heads have by their conditions
	own         []table.Field   // of the cell at hand, used again for each
	outs        map[string]*outs
	byShared    []*outs
	grid        grid
	faulty      map[string]*table.Fault
	order       []string           // of faulty
	telling     int                // cells that they name
	row32       int32              // the row at hand
	numbers     map[int32]cell.Pos // where the part stands that marks of a row mean; zero: in their heads
}

// zone is where a row stands in a table.
type zone uint8

const (
	outside zone = iota
	inHeader
	inBody
)

func newReading(r *reader, p *piece) *reading {
	own := *r.sheet
	g := &reading{piece: p, r: r, sheet: &own, cellsAt: -1, partAt: -1, notes: -1, index: map[string]int{}, outs: map[string]*outs{}, faulty: map[string]*table.Fault{}}
	g.dead = p.kind == ""
	for _, s := range p.splits {
		if s.what == theCells {
			g.ofCells = append(g.ofCells, s)
		}
	}
	return g
}

// row takes a row, and says which of its cells are claimed.
func (g *reading) row(number int32, level []level8) zone {
	e := &g.extent
	switch {
	case g.ended || number < e.header.From:
		return outside
	case e.header.From > 0 && number <= e.header.To:
		g.headRow(number)
		return inHeader
	case e.rows.From > 0 && !e.rows.holds(number):
		return outside
	}
	g.prepare()
	if e.until != "" && begins(g.r.first(), e.until) {
		g.ended = true
		all(level)
		return inBody
	}
	g.row32 = number
	switch {
	case g.dead:
		all(level)
	case g.section(level):
	case len(g.flips) > 0 || g.labels != nil:
		g.flipRow(level)
	case len(g.cols) > 0:
		g.gridRow(level)
	default:
		g.listRow(level)
	}
	return inBody
}

// end gives the table; nil where it cannot be read.
func (g *reading) end() *table.Table {
	g.prepare()
	g.unmet()
	if g.dead {
		return nil
	}
	g.flipped()
	g.maker.Gather()
	g.joinedParts()
	g.tellFaults()
	t := g.maker.End(g.r.report)
	copy(t.Laid.By, g.by)
	t.Laid.Reader, t.Laid.Number = g.readerOf, g.numberOf
	g.grid, g.outs, g.byShared = grid{}, nil, nil
	t.Records = slices.DeleteFunc(t.Records, func(r table.Record) bool { return len(r.Fields) == 0 })
	return t
}

// known tells whether the kind of the table defines a column.
func (g *reading) known(name string) bool {
	_, ok := schema.Find(g.kind, name)
	return ok
}
