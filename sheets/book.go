package sheets

import (
	"fmt"
	"io"
	"os"
	"runtime"
	"slices"

	"ferrule/sheets/cell"
	"ferrule/sheets/guard"
)

// Book is an open workbook. Nothing in it changes while it is read: its sheets may
// be read any number of times, also at the same time.
type Book struct {
	// Workers is how many goroutines Rows may work with. With 1 it does everything in
	// the caller's; 0, which is what Open gives, leaves it to Rows. The rows are the
	// same. It may be changed while no sheet is read.
	Workers int

	content content
	file    *os.File // nil where the caller has it
	name    string   // of the file, "" where the caller has it
}

// content is what is in a workbook, in whatever format its file is. Sheets are told by their
// index in list.
type content interface {
	list() []Info
	// texts is the largest Value.Shared.
	texts() int
	// coloured tells whether a cell may have another Look than 0.
	coloured() bool
	// typed tells whether cells are texts as somebody typed them, and nothing else.
	typed() bool
	// rows reads a sheet with so many goroutines, 0 for as many as are worth it.
	rows(sheet, workers int, yield func(*Row) error) (*Trailer, error)
	commented(sheet int, pass func(at cell.Pos, text string) bool) (cells []cell.Pos, n int, err error)
}

// packed is the content of an .xlsx package.
type packed struct {
	pack     *pack
	calendar calendar
	sheets   []listed
	styles   styles
	looks    looker
	strings  stock
	main     string // the part that lists the sheets
	styled   string // the part with cell formats, "" where there is none
	noTexts  error  // why there are no shared texts; only a cell that needs one fails
}

// Open reads the workbook of that name up to its rows. One whose name ends in .csv or .tsv is
// a text file, any other a package. Every error is a *Fault; where
// the operating system is the cause, errors.Is finds its error too.
func Open(name string) (*Book, error) {
	defer guard.About("reading the workbook " + name)
	if info, err := os.Stat(name); err == nil && !info.Mode().IsRegular() {
		return nil, notAFile() // to open a pipe might wait for ever
	}
	file, err := os.Open(name)
	if err != nil {
		return nil, broken(err, "the file cannot be opened")
	}
	b, err := openFile(file, name)
	if err != nil {
		file.Close()
		return nil, err
	}
	b.file, b.name = file, name
	return b, nil
}

func openFile(file *os.File, name string) (*Book, error) {
	info, err := file.Stat()
	if err != nil {
		return nil, broken(err, "the file cannot be opened")
	}
	if !info.Mode().IsRegular() {
		return nil, notAFile()
	}
	if Separated(name) {
		return ReadText(file, info.Size(), name), nil
	}
	return Read(file, info.Size())
}

func notAFile() *Fault {
	return fileFault("name the workbook itself", "this is a folder or a device, not a file")
}

// Read reads a workbook of size bytes up to its rows. r must stay readable while the
// Book is used. Every error is a *Fault.
func Read(r io.ReaderAt, size int64) (*Book, error) { return read(r, size, true) }

// read reads a workbook; fast tells whether shared texts may be taken past the XML parser.
func read(r io.ReaderAt, size int64, fast bool) (*Book, error) {
	p, err := openPack(r, size)
	if err != nil {
		return nil, err
	}
	w, err := p.openWorkbook()
	if err != nil {
		return nil, err
	}
	c := &packed{pack: p, calendar: w.calendar, sheets: w.sheets, main: w.part}
	if w.styles != nil {
		if f := p.part(*w.styles); f != nil {
			c.styled = f.Name
		}
	}
	if c.styles, c.looks, err = p.readStyles(w.styles); err != nil {
		return nil, err
	}
	if w.strings != nil && !w.strings.outside && p.part(*w.strings) == nil {
		_, c.noTexts = p.follow(*w.strings)
		return &Book{content: c}, nil
	}
	if c.strings, err = p.readStrings(w.strings, fast); err != nil {
		return nil, err
	}
	return &Book{content: c}, nil
}

// SharedTexts is the largest Value.Shared of the workbook's cells.
func (b *Book) SharedTexts() int { return b.content.texts() }

// Coloured tells whether a cell of the workbook may have another Look than 0.
func (b *Book) Coloured() bool { return b.content.coloured() }

// Typed tells whether every cell is a text as somebody typed it, since the file's format has
// no numbers, dates or formulas.
func (b *Book) Typed() bool { return b.content.typed() }

// Sheets lists the worksheets in the order in which the workbook shows them.
func (b *Book) Sheets() []Info { return b.content.list() }

// Rows reads the sheet of that index in Sheets and gives each row that holds cells to
// yield. An error of yield ends the reading and is returned as it is; every other
// error is a *Fault, after which the rows given out must not be used: they are not all,
// or not as they were written.
func (b *Book) Rows(sheet int, yield func(*Row) error) (*Trailer, error) {
	defer guard.About(b.about(sheet))
	return b.content.rows(sheet, b.Workers, yield)
}

// Commented gives the cells of the sheet of that index in Sheets that have a comment, a
// note or a thread of them, by row and column: the first thousand, and how many there are.
// pass is given the text of each note that is no thread, and tells whether it is passed over; nil
// passes over none. The error is a *Fault.
func (b *Book) Commented(sheet int, pass func(at cell.Pos, text string) bool) (cells []cell.Pos, n int, err error) {
	defer guard.About(b.about(sheet))
	return b.content.commented(sheet, pass)
}

// about says what is read, for a panic on the way.
func (b *Book) about(sheet int) string {
	all := b.content.list()
	if sheet < 0 || sheet >= len(all) {
		panic(fmt.Sprintf("sheets: sheet %d of %d asked for", sheet, len(all)))
	}
	return fmt.Sprintf("reading the sheet %q of the workbook %s", all[sheet].Name, b.name)
}

func (c *packed) texts() int { return c.strings.n }

func (c *packed) typed() bool { return false }

func (c *packed) coloured() bool {
	return slices.ContainsFunc(c.styles, func(s style) bool { return s.look != 0 })
}

func (c *packed) list() []Info {
	all := make([]Info, len(c.sheets))
	for i, s := range c.sheets {
		all[i] = s.Info
	}
	return all
}

func (c *packed) rows(sheet, workers int, yield func(*Row) error) (*Trailer, error) {
	s := c.sheets[sheet]
	trailer, _, err := c.read(s, c.pace(s, workers), yield)
	return trailer, err
}

// pace says how to read a sheet. More than one goroutine is not worth its start where
// there are only a few blocks.
func (c *packed) pace(s listed, workers int) pace {
	if workers == 0 {
		workers = min(runtime.GOMAXPROCS(0), mostWorkers)
	}
	if f := c.pack.find(s.part); f != nil && f.UncompressedSize64 < 4*blockSize {
		workers = 1
	}
	return pace{workers: workers, block: blockSize}
}

// read reads a sheet. It tells how many rows did not need the XML parser.
func (c *packed) read(s listed, p pace, yield func(*Row) error) (t *Trailer, fast int, err error) {
	m, err := c.pack.markup(s.part, s.Name, maxPart)
	if err != nil {
		return nil, 0, err
	}
	a := &assembler{typer: typer{m.spot, c}, yield: yield}
	if err := scan(m, a, p); err != nil {
		return nil, a.fast, err
	}
	t, err = a.finish()
	return t, a.fast, err
}

// Close lets go of the file that Open opened.
func (b *Book) Close() error {
	if b.file == nil {
		return nil
	}
	return b.file.Close()
}
