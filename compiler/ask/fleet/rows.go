package fleet

import (
	"fmt"
	"slices"
	"strings"

	"ferrule/compiler/ask/pick"
	"ferrule/compiler/finding"
	"ferrule/compiler/intake"
	"ferrule/compiler/intake/layout"
	"ferrule/compiler/intake/table"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// maxQuantity bounds how many vehicles a row stands for, so that sums stay whole numbers.
const maxQuantity = 1_000_000

// Read reads the workbook of a fleet. laid are rows of the catalogue's Layouts sheets about fleets.
// The error is a sentence.
func (f *Fleet) Read(path string, laid []*layout.Row) error {
	r := &reader{f: f, faults: map[cell.Place]*finding.Finding{}, used: map[*finding.Finding]bool{}}
	in := intake.Fleet{Laid: laid, Begin: r.begin, Report: r.report, Column: r.isColumn}
	none, err := in.Read(path)
	if err != nil {
		return err
	}
	r.end()
	switch {
	case len(f.Rows)+len(f.Refused) > 0:
		for _, name := range none {
			f.Remarks = append(f.Remarks, Refused{At: At{Sheet: name}, What: "no row of the sheet is a header with Platform, Year or a trait, so no vehicle is read from it"})
		}
		return nil
	case len(none) > 0:
		return fmt.Errorf("no sheet of the fleet has a header with Platform, Year or a trait; write them above the columns, or say in a Layouts sheet what the columns are")
	}
	return fmt.Errorf("the fleet has no vehicle: no sheet of it has a row below a header with Platform, Year or a trait")
}

// reader reads the sheets of one fleet.
type reader struct {
	f      *Fleet
	faults map[cell.Place]*finding.Finding
	told   []*finding.Finding        // in their order
	used   map[*finding.Finding]bool // told of a row that is not taken

	sheets []*sheetRows
}

// sheetRows is the rows of one table, as long as it may be read anew.
type sheetRows struct {
	table   *table.Table
	columns []column
	rows    []rawRow
	known   map[string]*group // by what rows say in these columns
}

// column is what a column of a fleet's sheet is.
type column struct {
	told     pick.Told // what its cells tell; the zero value of a column that is carried along
	quantity bool
	carried  bool
	unclear  string // the heading may be several things
}

// rawRow is a row as it was read; what is broken in it is told at the end.
type rawRow struct {
	row      int32
	group    *group
	quantity string
	broken   []cell.Place
	carried  []string // by the sheet's columns that are carried along
}

func (r *reader) isColumn(heading string) bool {
	_, _, err := r.f.desk.Words().Column(heading)
	return err == nil || word.Fold(heading) == "quantity"
}

func (r *reader) report(f *finding.Finding) {
	r.told = append(r.told, f)
	for _, c := range f.Cells {
		if r.faults[c.Place] == nil {
			r.faults[c.Place] = f
		}
	}
}

// begin makes ready for a table.
func (r *reader) begin(t *table.Table) func(*table.Record) {
	if n := len(r.sheets); n > 0 && r.sheets[n-1].table.Sheet == t.Sheet {
		r.sheets = r.sheets[:n-1] // it is gone through again
	}
	s := &sheetRows{table: t, known: map[string]*group{}}
	for i := range t.Columns {
		s.columns = append(s.columns, r.columnOf(&t.Columns[i]))
	}
	r.sheets = append(r.sheets, s)
	return func(rec *table.Record) { r.take(s, rec) }
}

func (r *reader) columnOf(c *table.Column) column {
	if word.Fold(c.Name) == "quantity" {
		return column{quantity: true}
	}
	name, t, err := r.f.desk.Words().Column(c.Name)
	if err == nil {
		return column{told: pick.Told{Column: name, Trait: t}}
	}
	out := column{carried: true}
	if strings.HasSuffix(err.Error(), "; write which") {
		out.unclear = err.Error()
	}
	return out
}

// unknown are words for what was not found out.
func unknown(text string) bool {
	if strings.Trim(text, "? ") == "" {
		return true
	}
	return slices.Contains([]string{"unknown", "not known", "don't know", "n/k"}, word.Fold(text))
}

// take reads a row.
func (r *reader) take(s *sheetRows, rec *table.Record) {
	raw := rawRow{row: rec.Row}
	var told []pick.Told
	var key strings.Builder
	carried := 0
	for i := range s.columns {
		if s.columns[i].carried {
			carried++
		}
	}
	if carried > 0 {
		raw.carried = make([]string, carried)
	}
	for i := range rec.Fields {
		f := &rec.Fields[i]
		c := &s.columns[f.Column]
		text := strings.TrimSpace(f.Text)
		switch {
		case c.carried:
			raw.carried[s.carriedAt(int(f.Column))] = text
			continue
		case f.Broken && !(f.OnLine && c.told.Trait != nil && c.told.Trait.Kind.OnLine()):
			raw.broken = append(raw.broken, s.table.Place(f.At))
			continue
		case c.quantity:
			raw.quantity = text
			continue
		case text == "" || unknown(text):
			continue
		}
		t := c.told
		t.Text = text
		told = append(told, t)
		fmt.Fprintf(&key, "%d\x00%s\x00", f.Column, text)
	}
	if len(told) == 0 && len(raw.broken) == 0 && raw.quantity == "" && nothing(raw.carried) {
		return
	}
	raw.group = r.group(s, key.String(), told)
	s.rows = append(s.rows, raw)
}

// carriedAt gives the number of a column among those that are carried along.
func (s *sheetRows) carriedAt(col int) int {
	n := 0
	for i := range col {
		if s.columns[i].carried {
			n++
		}
	}
	return n
}

func nothing(texts []string) bool {
	return !slices.ContainsFunc(texts, func(t string) bool { return t != "" })
}

// group gives the group of the rows that tell the same.
func (r *reader) group(s *sheetRows, key string, told []pick.Told) *group {
	g := s.known[key]
	if g == nil {
		g = &group{told: told}
		if len(told) > 0 {
			g.query, g.wrong = r.f.desk.Told(told)
		} else {
			g.wrong = []pick.Wrong{{Why: "the row says nothing of a vehicle; write its platform, and what is known of it"}}
		}
		s.known[key] = g
	}
	return g
}
