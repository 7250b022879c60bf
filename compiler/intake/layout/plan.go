package layout

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"ferrule/compiler/intake/table"
	"ferrule/schema"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// Plan says how sheets are read: the rows of Layouts that are about them, understood.
type Plan struct {
	pattern
	rows   []*Row
	pieces []*piece
	met    map[*Row]bool // rows that did something on some sheet
	matter bool          // some sheet was read by it
}

// First gives the place of the plan's first row.
func (p *Plan) First() cell.Place { return p.rows[0].SheetAt }

// Pattern gives what stands under Sheet.
func (p *Plan) Pattern() string { return p.text }

// piece is a table of a sheet, with all that is said of it.
type piece struct {
	top      *Row // its row table
	kind     string
	extent   extent
	is       []*holding
	across   []*holding
	cells    *holding
	marks    []*mark
	joins    []*join
	splits   []*split
	downs    []*named
	sections []*section
	skips    []*named
	says     []*say
	years    years
	century  *Row
	failed   bool // on some sheet it could not be followed
}

// holding says that something holds values of columns.
type holding struct {
	row *Row
	place
	to     place      // the end of a stretch of heads
	far    bool       // there is a stretch
	levels [][]target // one of them, or one a row of heads
	labels bool       // it holds the names of columns
}

// target is a column that values go to.
type target struct{ name, unit string }

// mark is a mark, or a footnote sign, and what it says.
type mark struct {
	row     *Row
	sign    string
	part    bool // the part of the row
	nothing bool
	note    bool   // a text below the table says it
	fits    string // none, and why
	conds   []cond
}

// cond is what a mark says of a column.
type cond struct {
	target target
	text   string
}

// join says how several parts that are marked at one place go together.
type join struct {
	row  *Row
	sign string // "" for all marks
	with string // or, +
}

type split struct {
	row *Row
	place
	sign, with string
}

type named struct {
	row *Row
	place
}

type section struct {
	row   *Row
	look  string // bold, merged or ""
	level []target
}

type say struct {
	row *Row
	place
	old, now string // old is folded; "" for a blank cell
}

// Set is what the Layouts sheets of a catalogue say.
type Set struct{ Plans []*Plan }

// New understands rows of Layouts sheets. What cannot be understood is reported, and left out.
func New(rows []*Row, report func(*table.Fault)) *Set {
	s := &Set{}
	by := map[string]*Plan{}
	for _, r := range rows {
		if r.Sheet == "" || r.Word == "" {
			continue // its schema says that both are needed
		}
		key := word.Fold(r.Sheet)
		p := by[key]
		if p == nil {
			p = &Plan{pattern: patternOf(r.Sheet), met: map[*Row]bool{}}
			by[key] = p
			s.Plans = append(s.Plans, p)
		}
		if !p.copied(r) {
			p.rows = append(p.rows, r)
		}
	}
	for _, p := range s.Plans {
		(&author{Plan: p, report: report}).write()
	}
	return s
}

// copied tells whether another Layouts sheet has the row as well: a copy, which is told as that.
func (p *Plan) copied(r *Row) bool {
	return slices.ContainsFunc(p.rows, func(q *Row) bool {
		return q.SheetAt.Sheet != r.SheetAt.Sheet && q.Word == r.Word && q.Where == r.Where && q.As == r.As
	})
}

// For gives the plan of a sheet; nil where no row is about it. A name that is written out comes
// before a pattern, and of patterns the longest counts. Sheets of a known kind, and those that
// are left alone on purpose, are read by a plan that writes their name out.
func (s *Set) For(file, sheet string) *Plan {
	kind, native := schema.KindOf(sheet)
	if kind == schema.Layouts && native {
		return nil
	}
	var best *Plan
	for _, p := range s.Plans {
		if !p.about(file, sheet) || !p.exact() && (native || strings.HasPrefix(sheet, "_")) {
			continue
		}
		if best == nil || p.before(best) {
			best = p
		}
	}
	return best
}

// before tells whether a plan says more exactly which sheets are meant than another.
func (p *Plan) before(q *Plan) bool {
	if p.exact() != q.exact() {
		return p.exact()
	}
	if (p.file != "") != (q.file != "") {
		return p.file != ""
	}
	return len(p.sheet) > len(q.sheet)
}

// maxPieces bounds how many times one sheet is read.
const maxPieces = 200

// author writes the pieces of a plan.
type author struct {
	*Plan
	report func(*table.Fault)
	begun  bool // a row table was met
}

func (a *author) write() {
	var common []*Row // they stand above the first table, and hold for each
	for _, r := range a.rows {
		take, known := words[r.Word]
		switch {
		case r.Word == WordTable:
			a.table(r, common)
		case !known: // its schema tells
		case len(a.pieces) == 0 && !a.begun:
			common = append(common, r)
		case len(a.pieces) > 0:
			take(a, a.pieces[len(a.pieces)-1], r)
		}
	}
	if !a.begun && len(common) > 0 {
		a.fail(common[0].WordAt, fmt.Sprintf("no row table says where the sheet %q has a table", a.rows[0].Sheet),
			"write a row table first, which says where the heads are and of which kind the rows are: table, header 1, Fitment")
	}
	for _, p := range a.pieces {
		a.agree(p)
	}
}

// common adds to a table the rows that hold for each. What is wrong with them is told once.
func (a *author) common(p *piece, rows []*Row) {
	quiet := &author{Plan: a.Plan, report: func(*table.Fault) {}}
	if len(a.pieces) == 1 {
		quiet.report = a.report
	}
	for _, r := range rows {
		words[r.Word](quiet, p, r)
	}
}

// words are what is done with a row of each word but table.
var words = map[string]func(*author, *piece, *Row){
	WordIs: (*author).isRow, WordAcross: (*author).acrossRow, WordCells: (*author).cellsRow, WordMark: (*author).markRow, WordSplit: (*author).splitRow,
	WordDown: (*author).downRow, WordSection: (*author).sectionRow, WordSkip: (*author).skipRow, WordSay: (*author).sayRow,
}

// fail tells of a row that cannot be understood.
func (a *author) fail(at cell.Place, message, fix string) {
	a.report(&table.Fault{What: table.Unread, Message: message, Fix: fix, Cells: []cell.Place{at}})
}

// contradict tells of two rows that cannot both hold.
func (a *author) contradict(first, again cell.Place, message, fix string) {
	a.report(&table.Fault{What: table.Contradicted, Message: message, Fix: fix, Cells: []cell.Place{again, first}})
}

func (a *author) table(r *Row, common []*Row) {
	a.begun = true
	p := &piece{top: r}
	var ok bool
	if p.extent, ok = extentOf(r.Where); !ok {
		a.fail(r.WhereAt, fmt.Sprintf("%s under Where of a row table does not say where the heads are%s", said(r.Where), word.DidYouMean(firstWord(r.Where), []string{"header", "rows", "until", "no header"})),
			`write header 3, header 2-3 or no header; behind it, where the table does not go on to the end of the sheet, rows 4-60 or until "Total"`)
	}
	kind := strings.ToLower(strings.TrimSpace(r.As))
	kinds := slices.DeleteFunc(schema.Kinds(), func(k string) bool { return k == schema.Layouts })
	if !slices.Contains(kinds, kind) {
		titles := make([]string, len(kinds))
		for i, k := range kinds {
			titles[i] = schema.Title(k)
		}
		a.fail(r.AsAt, fmt.Sprintf("%s under As of a row table is no kind of sheet%s", said(r.As), word.DidYouMean(r.As, titles)),
			"write the kind whose rows come of the table: "+word.List(titles, "or"))
		kind = ""
	}
	p.kind = kind
	if len(a.pieces) == maxPieces {
		a.fail(r.WordAt, fmt.Sprintf("the sheet %q is read more than %d times", r.Sheet, maxPieces), "read several columns by one row across, or write a pattern")
		return
	}
	if !ok {
		p.kind = ""
	}
	a.pieces = append(a.pieces, p)
	a.common(p, common)
}

func firstWord(s string) string {
	first, _, _ := strings.Cut(strings.TrimSpace(s), " ")
	return first
}

// said quotes what a cell says, also where it says nothing.
func said(text string) string {
	if text == "" {
		return "nothing"
	}
	return word.Quote(table.Short(text))
}

// level reads the columns that one value goes to: one, or one and Years.
func level(text string) []target {
	if i := strings.LastIndexByte(text, ','); i > 0 && word.Fold(text[i+1:]) == "years" {
		return []target{targetOf(text[:i]), targetOf(text[i+1:])}
	}
	return []target{targetOf(text)}
}

func targetOf(text string) target {
	name, unit := table.Split(text)
	return target{name, unit}
}

func (a *author) isRow(p *piece, r *Row) {
	h := &holding{row: r, place: placeOf(r.Where)}
	switch {
	case r.Where == "":
		a.fail(r.WhereAt, "nothing stands under Where of a row is", `write a head as it stands in the sheet, column C, sheet name, cell B1, or a "text" that holds for all rows`)
		return
	case r.As == "":
		a.fail(r.AsAt, fmt.Sprintf("nothing stands under As of the row that says what %s is", said(r.Where)), "write the column that it holds: Platform, Years, Position, the name of a trait; Platform, Years where years stand behind the name")
		return
	case h.what == theHeads, h.what == theCells:
		a.fail(r.WhereAt, fmt.Sprintf("a row is is about one head, and %s are those of a row across", strings.ToLower(r.Where)), "write their column under As of the row across, or in a row cells")
		return
	}
	if word.Fold(r.As) == "heads" {
		h.labels = true
	} else {
		h.levels = [][]target{level(r.As)}
	}
	p.is = append(p.is, h)
}

func (a *author) acrossRow(p *piece, r *Row) {
	h := &holding{row: r}
	if r.Where == "" || r.As == "" {
		at, what := r.WhereAt, "Where"
		if r.Where != "" {
			at, what = r.AsAt, "As"
		}
		a.fail(at, "nothing stands under "+what+" of a row across", "write the heads under Where (H7 … H12), and under As the column that they are values of (Platform)")
		return
	}
	h.place, h.to, h.far = stretchOf(r.Where)
	if !h.far {
		h.place = place{what: aHead, text: r.Where}
	}
	for _, part := range strings.Split(r.As, " / ") {
		h.levels = append(h.levels, level(strings.TrimSpace(part)))
	}
	p.across = append(p.across, h)
}

func (a *author) cellsRow(p *piece, r *Row) {
	if p.cells != nil {
		a.contradict(p.cells.row.AsAt, r.AsAt, "two rows say what the cells of one table say", "keep one of them, or read the sheet by a second row table")
		return
	}
	if r.As == "" {
		a.fail(r.AsAt, "nothing stands under As of a row cells", "write the column that the cells below across hold, such as Fits, or delete the row: Fits is meant without it")
		return
	}
	p.cells = &holding{row: r, levels: [][]target{level(r.As)}}
}

func (a *author) splitRow(p *piece, r *Row) {
	s := &split{row: r, with: word.Fold(r.As)}
	var ok bool
	if s.place, s.sign, ok = subjectOf(r.Where); !ok {
		a.fail(r.WhereAt, fmt.Sprintf("%s under Where of a row split does not say what is split, and at which sign", said(r.Where)), "write a head, heads or cells, and behind it the sign: cells /")
		return
	}
	if s.with == "" || !slices.Contains([]string{"or", "+", "each"}, s.with) {
		a.fail(r.AsAt, fmt.Sprintf("%s under As of a row split says nothing of how the values go together", said(r.As)), "write or (one of them, the first by preference), + (all together) or each (a row for each)")
		return
	}
	p.splits = append(p.splits, s)
}

func (a *author) downRow(p *piece, r *Row) {
	n := &named{r, placeOf(r.Where)}
	if r.Where == "" || n.what != aHead && n.what != aColumn {
		a.fail(r.WhereAt, fmt.Sprintf("%s under Where of a row down is no head", said(r.Where)), "write the head of the column in which a blank cell says what the one above it says")
		return
	}
	p.downs = append(p.downs, n)
}

func (a *author) sectionRow(p *piece, r *Row) {
	s := &section{row: r, look: word.Fold(r.Where), level: level(r.As)}
	if !slices.Contains([]string{"", "bold", "merged"}, s.look) {
		a.fail(r.WhereAt, fmt.Sprintf("%s under Where of a row section is not how a heading looks%s", said(r.Where), word.DidYouMean(r.Where, []string{"bold", "merged"})), "write bold or merged, or nothing where every row with one filled cell is a heading")
		return
	}
	if r.As == "" {
		a.fail(r.AsAt, "nothing stands under As of a row section", "write the column that the headings say for the rows below them")
		return
	}
	for _, t := range p.sections {
		if t.look == s.look {
			a.contradict(t.row.WhereAt, r.WhereAt, "two rows section are about headings that look alike", "write bold in the one and merged in the other, as they look, or keep one of them")
			return
		}
	}
	p.sections = append(p.sections, s)
}

func (a *author) skipRow(p *piece, r *Row) {
	n := &named{r, placeOf(r.Where)}
	if r.Where == "" || n.what == sheetName || n.what == aText || n.what == theHeads || n.what == theCells {
		a.fail(r.WhereAt, fmt.Sprintf("%s under Where of a row skip names nothing that can be left out", said(r.Where)), `write a head, or row "Total" for a row that begins with the text; column C, cell B1 and rows 1-2 are understood as well`)
		return
	}
	p.skips = append(p.skips, n)
}

func (a *author) sayRow(p *piece, r *Row) {
	old, now, ok := strings.Cut(r.As, "=")
	old, now = strings.TrimSpace(old), strings.TrimSpace(now)
	if r.Where == "" {
		a.fail(r.WhereAt, "nothing stands under Where of a row say", "write the head, or the column, whose cells say it")
		return
	}
	if !ok || old == "" && now == "" || word.Fold(unquoted(old)) == word.Fold(unquoted(now)) && !strings.HasPrefix(old, `"`) && old == now {
		a.fail(r.AsAt, fmt.Sprintf("%s under As of a row say does not say which words stand for which", said(r.As)), "write the old and the new words with = between them (air = Air beam); = Air beam for blank cells")
		return
	}
	if word.Fold(old) == "century" && word.Fold(r.Where) == "years" {
		a.centuryRow(p, r, now)
		return
	}
	s := &say{r, placeOf(r.Where), word.Fold(unquoted(old)), unquoted(now)}
	for _, t := range p.says {
		if word.Fold(t.text) == word.Fold(s.text) && t.old == s.old && t.now != s.now {
			a.contradict(t.row.AsAt, r.AsAt, fmt.Sprintf("%s is said in two ways, %s and %s", said(old), said(t.now), said(s.now)), "keep one of the two rows")
			return
		}
	}
	p.says = append(p.says, s)
}

func unquoted(s string) string {
	if m := textSaid.FindStringSubmatch(s); m != nil {
		return m[1]
	}
	return s
}

func (a *author) centuryRow(p *piece, r *Row, year string) {
	n, err := strconv.Atoi(year)
	if err != nil || n < 1800 || n > 2100 {
		a.fail(r.AsAt, fmt.Sprintf("%s is not the first year that two digits may mean", said(year)), "write century = 1950 where 50 means 1950 and 49 means 2049")
		return
	}
	if p.century != nil && p.years.century != n {
		a.contradict(p.century.AsAt, r.AsAt, fmt.Sprintf("two digits begin with %d in one row and with %d in the other", p.years.century, n), "keep one of the two rows")
		return
	}
	p.years.century, p.century = n, r
}
