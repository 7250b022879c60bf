package sheets

import (
	"fmt"
	"io"
	"os"
	"runtime"
	"slices"

	"ferrule/sheets/guard"
)

// Book is an open workbook. Nothing in it changes while it is read: its sheets may
// be read any number of times, also at the same time.
type Book struct {
	// Workers is how many goroutines Rows may work with. With 1 it does everything in
	// the caller's; 0, which is what Open gives, leaves it to Rows. The rows are the
	// same. It may be changed while no sheet is read.
	Workers int

	pack     *pack
	calendar calendar
	sheets   []listed
	styles   styles
	looks    looker
	strings  stock
	main     string   // the part that lists the sheets
	styled   string   // the part with cell formats, "" where there is none
	noTexts  error    // why there are no shared texts; only a cell that needs one fails
	file     *os.File // nil where the caller has it
	name     string   // of the file, "" where the caller has it
}

// Open reads the workbook of that name up to its rows. Every error is a *Fault; where
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
	b, err := openFile(file)
	if err != nil {
		file.Close()
		return nil, err
	}
	b.file, b.name = file, name
	return b, nil
}

func openFile(file *os.File) (*Book, error) {
	info, err := file.Stat()
	if err != nil {
		return nil, broken(err, "the file cannot be opened")
	}
	if !info.Mode().IsRegular() {
		return nil, notAFile()
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
	b := &Book{pack: p, calendar: w.calendar, sheets: w.sheets, main: w.part}
	if w.styles != nil {
		if f := p.part(*w.styles); f != nil {
			b.styled = f.Name
		}
	}
	if b.styles, b.looks, err = p.readStyles(w.styles); err != nil {
		return nil, err
	}
	if w.strings != nil && !w.strings.outside && p.part(*w.strings) == nil {
		_, b.noTexts = p.follow(*w.strings)
		return b, nil
	}
	if b.strings, err = p.readStrings(w.strings, fast); err != nil {
		return nil, err
	}
	return b, nil
}

// SharedTexts is the largest Value.Shared of the workbook's cells.
func (b *Book) SharedTexts() int { return b.strings.n }

// Coloured tells whether a cell of the workbook may have another Look than 0.
func (b *Book) Coloured() bool {
	return slices.ContainsFunc(b.styles, func(s style) bool { return s.look != 0 })
}

// Sheets lists the worksheets in the order in which the workbook shows them.
func (b *Book) Sheets() []Info {
	all := make([]Info, len(b.sheets))
	for i, s := range b.sheets {
		all[i] = s.Info
	}
	return all
}

// Rows reads the sheet of that index in Sheets and gives each row that holds cells to
// yield. An error of yield ends the reading and is returned as it is; every other
// error is a *Fault, after which the rows given out must not be used: they are not all,
// or not as they were written.
func (b *Book) Rows(sheet int, yield func(*Row) error) (*Trailer, error) {
	if sheet < 0 || sheet >= len(b.sheets) {
		panic(fmt.Sprintf("sheets: sheet %d of %d asked for", sheet, len(b.sheets)))
	}
	defer guard.About(b.about(sheet))
	trailer, _, err := b.read(b.sheets[sheet], b.pace(b.sheets[sheet]), yield)
	return trailer, err
}

// about says what is read, for a panic on the way.
func (b *Book) about(sheet int) string {
	return fmt.Sprintf("reading the sheet %q of the workbook %s", b.sheets[sheet].Name, b.name)
}

// pace says how to read a sheet. More than one goroutine is not worth its start where
// there are only a few blocks.
func (b *Book) pace(s listed) pace {
	workers := b.Workers
	if workers == 0 {
		workers = min(runtime.GOMAXPROCS(0), mostWorkers)
	}
	if f := b.pack.find(s.part); f != nil && f.UncompressedSize64 < 4*blockSize {
		workers = 1
	}
	return pace{workers: workers, block: blockSize}
}

// read reads a sheet. It tells how many rows did not need the XML parser.
func (b *Book) read(s listed, p pace, yield func(*Row) error) (t *Trailer, fast int, err error) {
	m, err := b.pack.markup(s.part, s.Name, maxPart)
	if err != nil {
		return nil, 0, err
	}
	a := &assembler{typer: typer{m.spot, b}, yield: yield}
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
