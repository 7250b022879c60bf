package enumerate

import "slices"

// ref is the address of a cell, as findings.json gives it.
type ref struct {
	File  string `json:"file"`
	Sheet string `json:"sheet"`
	Cell  string `json:"cell"`
}

func (r ref) String() string { return r.File + ":" + r.Sheet + "!" + r.Cell }

// row is one line of a sheet: what is written under each column. The writer
// fills in where it came to stand.
type row struct {
	cells map[string]any // by the column's plain name; nil or absent is blank
	at    map[string]ref
	first ref  // the leftmost filled cell
	line  int  // its number in the sheet
	gone  bool // taken out while a failing catalogue is made smaller
}

func newRow() *row { return &row{cells: map[string]any{}, at: map[string]ref{}} }

// column is a column of a sheet: its plain name and the header as written.
type column struct{ name, head string }

// merge is a merged range: rows of one sheet that share a cell or, with over, two columns
// beside each other that share one in a single row.
type merge struct {
	column string
	rows   []*row
	over   string
}

// holds reports whether a cell is part of the range.
func (m merge) holds(r *row, column string) bool {
	return column != "" && (m.column == column || m.over == column) && slices.Contains(m.rows, r)
}

// sheet is one sheet of a workbook, ready to be written.
type sheet struct {
	file, name string
	lead       []string // titles above the header
	columns    []column
	rows       []*row
	skip       map[*row]bool // an empty line follows
	merges     []merge
	heads      map[string]ref      // where each column's header stands
	measured   map[string]measured // columns of amounts
	hideColumn int                 // 1-based; 0 is none
	hideRow    *row
	hidden     bool
}

// catalogue is what the generator means: everything the enumerator needs, and
// beside it the sheets that say the same in the words of the format.
type catalogue struct {
	seed      uint64
	files     []string
	sheets    []*sheet
	platforms []platform
	traits    []trait
	vehicles  []*vehicle
	breaks    []*broken
	positions []*position
	parts     []*part
	kits      []*kit
	fits      []*fit
	rules     []*rule
	accepts   []*accept

	facts        []*fact
	factRows     []*factRow
	calculations []*calculation
	limits       []*limit
}

type platform struct {
	name  string
	spans [][2]int // the years that exist, holes between them
}

func (p platform) years() []int {
	var out []int
	for _, s := range p.spans {
		for y := s[0]; y <= s[1]; y++ {
			out = append(out, y)
		}
	}
	return out
}

type trait struct {
	name   string
	kind   string // choice, ordered, size
	values []value
	sorted bool         // values are declared in their order, so from and to are safe
	idle   bool         // no row outside Vehicles names it
	told   map[int]bool // platforms for which a value has a How to tell; -1 is all
	rows   []*row
	line   *lining // nil: its values are names
}

// value is one declared value of a trait. Sizes carry a magnitude; a value
// that must stand alone in its cell holds a separator in its own name.
type value struct {
	name  string
	size  *size
	alone bool
}

// conds are the condition columns of one row.
type conds struct {
	platform, years cond
	traits          []cond
}

type vehicle struct {
	*row
	conds
	road  float64 // 0 where the cell is blank
	fault string
}

// position is a place; its rows say where it exists.
type position struct {
	name, coverage string
	pair           string   // what its Pair cell says; "" is blank
	families       []string // what its Family cell lists
	side           string   // left, right, centre, both; "" is blank
	rows           []*place
	clash          bool // two rows meet and differ
}

type place struct {
	*row
	conds
	quantity int // as it counts: 1 if blank
	air      int // index of the air line's trait, -1 if none
	fault    string
}

type part struct {
	*row
	name, family, status string
	line                 *size
	has                  map[string]amount // its measured properties; nil where nothing needs them
}

// kit is a set of parts and kits under a number of its own.
type kit struct {
	name  string
	items []item
	rows  []*row
}

// item is so many of a part or kit; 0 is not written.
type item struct {
	name     string
	quantity int
}

// statement is what one fitment cell says.
type statement struct {
	kind string // parts, none, planned, ask, with
	with int    // index of the position that supplies
	alts [][]item
	// unreadable cells count as blank and are an error.
	unreadable bool
}

// fit is one fitment row; says is by index of position. A fault, here and in
// other rows, is the column that holds an unknown condition value: such a row
// is set aside.
type fit struct {
	*row
	conds
	precedence int
	says       map[int]*statement
	columns    map[int]string
	fault      string
	nowhere    bool     // Platform is blank: an error, read as any
	note       string   // the row's Note
	notes      []string // by position: what else is printed with its cell
}

// rule is one row of Compatibility. Idle rules forbid nothing by themselves:
// they caution, or they are about company.
type rule struct {
	*row
	conds
	part, family string
	with, effect string // with is "" where the row is about no company
	idle         bool
	fault        string
}

type accept struct {
	*row
	conds
	code, position, part string
	expired              bool
}

func (c *catalogue) kit(name string) *kit {
	for _, k := range c.kits {
		if k.name == name {
			return k
		}
	}
	return nil
}

func (c *catalogue) part(name string) *part {
	for _, p := range c.parts {
		if p.name == name && !p.gone {
			return p
		}
	}
	return nil
}

// knows reports whether a number is declared as a part or a kit.
func (c *catalogue) knows(name string) bool {
	return c.part(name) != nil || c.kit(name) != nil
}
