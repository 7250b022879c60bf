package aid

import (
	"fmt"
	"strings"

	"ferrule/compiler/intake/table"
	"ferrule/out/patch"
	"ferrule/schema"
	"ferrule/sheets"
)

// work is one workbook while it is gone through.
type work struct {
	names  *names
	book   *sheets.Book
	file   string
	states []patch.State
	aids   []patch.Aid
	notes  []patch.Cell
	lists  []*list          // in the hidden sheet
	grown  map[*list]string // formulas, since each looks at the sheet that declares the names
}

// changed gives all that is to be added.
func (w *work) changed() patch.Change {
	return patch.Change{Cells: w.notes, Aids: w.aids, Sheet: w.hidden()}
}

// deepest is how far down a header may stand and still leave most of a screen to what is below it.
const deepest = 8

// sheet sees to one sheet and tells about it.
func (w *work) sheet(i int, name string, t *table.Table) Sheet {
	s := &planned{work: w, state: &w.states[i], table: t, aid: patch.Aid{Sheet: i}, told: Sheet{Name: name}}
	switch {
	case strings.HasPrefix(name, "_"):
		s.left("its name begins with _")
	case t == nil && kind(name):
		s.left("it says the same as another sheet, which is read in its place")
	case t == nil:
		s.left("its name begins with no kind of sheet")
	case t.Laid != nil:
		s.left("it has a shape of its own, which Layouts says how to read")
	case !t.Headed:
		s.left("a column that it must have is missing; ferrule check tells which")
	default:
		s.plan()
	}
	return s.told
}

// kind tells whether a sheet is called like one of a catalogue.
func kind(name string) bool { _, known := schema.KindOf(name); return known }

// planned is one sheet of a workbook on its way.
type planned struct {
	*work
	state *patch.State
	table *table.Table
	aid   patch.Aid
	wide  []float64 // how wide its columns should be
	told  Sheet
}

func (s *planned) left(format string, args ...any) { s.told.Left = fmt.Sprintf(format, args...) }

func (s *planned) kept(what string) { s.told.Kept = append(s.told.Kept, what) }

func (s *planned) added(format string, args ...any) {
	s.told.Added = append(s.told.Added, fmt.Sprintf(format, args...))
}

// plan sees to a sheet of the catalogue.
func (s *planned) plan() {
	s.measure()
	s.columns()
	s.frame()
	s.widths()
	s.print()
	if len(s.told.Added) > 0 {
		s.aids = append(s.aids, s.aid)
	}
}
