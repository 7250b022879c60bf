package intake

import (
	"crypto/sha256"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"ferrule/compiler/finding"
	"ferrule/compiler/intake/layout"
	"ferrule/compiler/intake/table"
	"ferrule/compiler/reason"
	"ferrule/schema"
	"ferrule/schema/word"
	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// Reader reads the workbooks of a catalogue into tables.
type Reader struct {
	Read   Read
	Tables []*table.Table
	Whole  bool          // false: a workbook could not be read
	Fleets []*layout.Row // of Layouts sheets, about sheets of fleets; known once all is read

	layouts map[string]table.Layout
	kinds   []string                     // as their sheets are named
	seen    map[extents][]*held          // the workbooks by how much they hold
	strange []stranger                   // sheets of no kind, of workbooks that are used
	doubled map[string]bool              // workbooks that hold what another one holds
	laid    map[*cell.Sheet]*table.Table // tables that were read by a layout, by their sheets
	placed  map[string]bool              // what was told of these
	found   []*finding.Finding
}

// NewReader gives a reader that has read nothing.
func NewReader() *Reader {
	r := &Reader{layouts: map[string]table.Layout{}, seen: map[extents][]*held{}, Whole: true}
	for _, kind := range schema.Kinds() {
		r.layouts[kind] = table.LayoutOf(kind)
		r.kinds = append(r.kinds, schema.Title(kind))
	}
	return r
}

// report keeps a finding until all workbooks are read: a sheet that is then left out is
// not told about.
func (r *Reader) report(f *finding.Finding) { r.found = append(r.found, f) }

// Finish tells what was found in the workbooks, and what only all of them together show:
// what stands there twice, what is no sheet of a catalogue, and files that are not read.
// It gives the sheets that are not used, which are taken out of the tables.
func (r *Reader) Finish(src *Sources, report func(*finding.Finding)) []Aside {
	r.lay(src)
	lost := r.twins()
	r.found = slices.DeleteFunc(r.found, func(f *finding.Finding) bool { return f.Code != finding.SheetTwice && about(f, lost) })
	lost = append(lost, r.strangers()...)
	r.relieve()
	for _, s := range src.Strange {
		r.report(strange(s))
	}
	for _, f := range r.found {
		if f = r.Place(f); f != nil {
			report(f)
		}
	}
	return lost
}

// Book reads one workbook.
func (r *Reader) Book(src Source) { r.Take(r.Load(src)) }

// Loaded is what one workbook holds, whatever others do.
type Loaded struct {
	file    File
	tables  []*table.Table
	strange []stranger         // its sheets of no kind
	told    []*finding.Finding // held back until it is known to be new
	err     error              // it cannot be read whole
}

// Load reads a workbook, and changes nothing in the reader.
func (r *Reader) Load(src Source) *Loaded {
	l := &Loaded{file: File{Name: src.Name, Path: src.Path}}
	l.err = r.sheets(src, l)
	return l
}

// Copy gives what the workbook holds once more, for another catalogue: making one uses it up.
func (l *Loaded) Copy() *Loaded {
	out := &Loaded{file: l.file, strange: slices.Clone(l.strange), err: l.err}
	out.file.Sheets = slices.Clone(l.file.Sheets)
	for _, t := range l.tables {
		copied := *t
		out.tables = append(out.tables, &copied)
	}
	for _, f := range l.told {
		out.told = append(out.told, f.Copy())
	}
	return out
}

// Take takes a workbook into the catalogue. What it held before a fault is not kept.
func (r *Reader) Take(l *Loaded) {
	file, tables := l.file, l.tables
	if l.err != nil {
		r.Whole, file.Failed, file.Sheets = false, true, nil
		r.report(unreadable(file.Name, l.err))
		r.Read.Files = append(r.Read.Files, file)
		return
	}
	if first, twice := r.twin(file.Name, tables); twice {
		r.report(&finding.Finding{Code: finding.WorkbookTwice, Severity: finding.Error,
			Message: fmt.Sprintf("%s holds the same cells as %s, so it is left out", file.Name, first),
			Cells:   finding.At(cell.Place{Sheet: &cell.Sheet{File: file.Name}}, cell.Place{Sheet: &cell.Sheet{File: first}}),
			Fix:     "delete one of the two"})
		for i := range file.Sheets {
			file.Sheets[i].Kind = ""
		}
		if r.doubled == nil {
			r.doubled = map[string]bool{}
		}
		r.doubled[file.Name] = true
		r.Read.Files = append(r.Read.Files, file)
		return
	}
	for _, f := range l.told {
		r.report(f)
	}
	r.Tables, r.strange = append(r.Tables, tables...), append(r.strange, l.strange...)
	r.Read.Files = append(r.Read.Files, file)
}

func (r *Reader) sheets(src Source, l *Loaded) (err error) {
	book, err := sheets.Open(src.File())
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, book.Close()) }()
	marked := copied{file: src.Name}
	for i, info := range book.Sheets() {
		sheet := &cell.Sheet{File: src.Name, Name: info.Name, Order: i}
		out := Sheet{Name: info.Name, Hidden: info.Visibility != sheets.Visible}
		kind, known := schema.KindOf(info.Name)
		if !known {
			if marked.list(book, i, sheet) || offers(book, i) {
				l.file.Sheets = append(l.file.Sheets, out)
				continue
			}
			s := stranger{book: src, index: i, sheet: sheet}
			if !strings.HasPrefix(info.Name, "_") {
				s.top = glance(book, i)
			}
			l.strange = append(l.strange, s)
		} else {
			out.Kind = kind
			t, err := table.Read(book, i, sheet, r.layouts[kind], func(f *table.Fault) { l.told = append(l.told, asFinding(f)) })
			if err != nil {
				return err
			}
			out.Rows = len(t.Records)
			marked.add(t.Marks)
			if len(t.Columns) > 0 {
				out.Header = t.Columns[0].At.Row
			}
			l.tables = append(l.tables, t)
		}
		l.file.Sheets = append(l.file.Sheets, out)
	}
	marked.tell(l)
	return nil
}

func (r *Reader) ignored(sheet *cell.Sheet) *finding.Finding {
	f := &finding.Finding{Code: finding.SheetIgnored, Severity: finding.Note, Cells: finding.At(cell.Place{Sheet: sheet})}
	if strings.HasPrefix(sheet.Name, "_") {
		f.Message = fmt.Sprintf("the sheet %q is left alone, as its name starts with _", sheet.Name)
		return f
	}
	kind, _ := schema.KindOf(sheet.Name)
	f.Message = fmt.Sprintf("the sheet %q is left alone, as its name begins with no kind of sheet%s",
		sheet.Name, word.DidYouMean(kind, r.kinds))
	if !strings.Contains(f.Message, "did you mean") {
		f.Message += " (the kinds are " + strings.Join(r.kinds, ", ") + ")"
	}
	f.Fix = "rename it if it belongs to the catalogue; a name that starts with _ says that it does not"
	if sheets.Separated(sheet.File) {
		f.Fix = "rename the file if it belongs to the catalogue; a name that starts with _ says that it does not"
	}
	return f
}

// unreadable says that a workbook cannot be read whole.
func unreadable(name string, err error) *finding.Finding {
	f := &finding.Finding{Code: finding.WorkbookUnreadable, Severity: finding.Error}
	at := cell.Place{Sheet: &cell.Sheet{File: name}}
	why := reason.Of(err).Error()
	var fault *sheets.Fault
	if errors.As(err, &fault) {
		at = cell.Place{Sheet: &cell.Sheet{File: name, Name: fault.Sheet}, Pos: fault.Pos}
		why = fault.Why
	}
	f.Message, f.Cells = fmt.Sprintf("%s cannot be read whole: %s", name, why), finding.At(at)
	return f
}

// extents is how much a workbook holds. Only two that hold as much can hold the same.
type extents struct{ sheets, rows, cells int }

// held is what a workbook holds. Its digest is made when another holds as much.
type held struct {
	name   string
	tables []*table.Table
	digest *[sha256.Size]byte
}

func (h *held) sum() [sha256.Size]byte {
	if h.digest == nil {
		d := digest(h.tables)
		h.digest = &d
	}
	return *h.digest
}

// twin gives the name of a workbook that was read before and holds the same cells, and
// keeps what this one holds if there is none.
func (r *Reader) twin(name string, tables []*table.Table) (string, bool) {
	if len(tables) == 0 {
		return "", false
	}
	rows, cells := table.Extent(tables)
	size := extents{len(tables), rows, cells}
	this := &held{name: name, tables: tables}
	for _, other := range r.seen[size] {
		if other.sum() == this.sum() {
			return other.name, true
		}
	}
	r.seen[size] = append(r.seen[size], this)
	return "", false
}

// digest is equal for two workbooks that hold the same cells in the same sheets. Every
// text is written with its length, so that no two run into one another.
func digest(tables []*table.Table) [sha256.Size]byte {
	h := sha256.New()
	var line []byte
	text := func(s string) {
		line = append(strconv.AppendInt(line, int64(len(s)), 10), ' ')
		line = append(line, s...)
	}
	number := func(n int32) { line = append(strconv.AppendInt(line, int64(n), 10), ' ') }
	place := func(p cell.Pos) { number(p.Row); number(p.Col) }
	sorted := slices.Clone(tables)
	slices.SortStableFunc(sorted, func(a, b *table.Table) int { return strings.Compare(a.Sheet.Name, b.Sheet.Name) })
	for _, t := range sorted {
		line = line[:0]
		text(t.Sheet.Name)
		for _, c := range t.Columns {
			place(c.At)
			text(c.Name)
			text(c.Unit)
		}
		h.Write(line)
		for _, rec := range t.Records {
			line = line[:0]
			number(rec.Row)
			for _, f := range rec.Fields {
				number(int32(f.Column))
				number(int32(f.Kind))
				place(f.At)
				text(f.Text)
			}
			h.Write(line)
		}
	}
	return [sha256.Size]byte(h.Sum(nil))
}
