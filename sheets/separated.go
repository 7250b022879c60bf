package sheets

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"strings"
	"sync"

	"ferrule/sheets/cell"
)

// Separated tells by a file's name whether it is a text file whose cells are separated by a
// sign: a table of commas, semicolons or tabs.
func Separated(name string) bool {
	switch ending(name) {
	case ".csv", ".tsv":
		return true
	}
	return false
}

func ending(name string) string { return strings.ToLower(filepath.Ext(name)) }

// separated is the content of a text file: one sheet, named as the file without its ending.
// Its cells are separated by one sign, and written as RFC 4180 says, strictly: a cell with the
// sign, a line break or a quotation mark in it stands in quotation marks, those inside doubled.
// Lines may end as any system ends them. Nothing is made of a text: not a number, not a date.
type separated struct {
	from   io.ReaderAt
	size   int64
	name   string // of the sheet
	ending string // of the file's name, in lower case

	once sync.Once
	how  arrangement
	err  error // why it cannot be read
}

// ReadText gives the workbook that a text file of size bytes is; name is the file's. r must stay
// readable while the Book is used. What is wrong with the file is told when its rows are read.
func ReadText(r io.ReaderAt, size int64, name string) *Book {
	base := filepath.Base(name)
	end := filepath.Ext(base)
	return &Book{content: &separated{from: r, size: size, name: strings.TrimSuffix(base, end), ending: strings.ToLower(end)}}
}

func (s *separated) list() []Info { return []Info{{Name: s.name}} }

func (s *separated) texts() int { return 0 }

func (s *separated) coloured() bool { return false }

func (s *separated) typed() bool { return true }

func (s *separated) commented(int, func(cell.Pos, string) bool) ([]cell.Pos, int, error) {
	return nil, 0, nil
}

func (s *separated) rows(_, _ int, yield func(*Row) error) (*Trailer, error) {
	s.once.Do(func() { s.how, s.err = s.arranged() })
	if s.err != nil {
		return nil, s.err
	}
	p := &splitter{file: s, sign: s.how.sign, line: s.how.line, yield: yield}
	p.classes = classesOf(s.how.sign)
	if err := s.each(s.how.from, p.block); err != nil {
		return nil, err
	}
	return &Trailer{}, p.end()
}

// arrangement is how the cells of a file are separated.
type arrangement struct {
	sign byte
	from int64 // where the first row begins, in bytes of UTF-8
	line int   // the line in which it begins
}

// arranged finds the sign that separates the cells: a first line may declare it, and so does the
// ending .tsv. Otherwise all lines are looked at.
func (s *separated) arranged() (arrangement, error) {
	if err := s.sniff(); err != nil {
		return arrangement{}, err
	}
	if declared, ok, err := s.declared(); ok || err != nil {
		return declared, err
	}
	var v survey
	v.begin()
	switch err := s.each(0, v.block); {
	case err == nil:
		v.end()
	case !errors.Is(err, errEnough):
		return arrangement{}, err
	}
	sign, err := s.choose(&v)
	return arrangement{sign: sign, line: 1}, err
}

// sniff refuses files of other kinds under the name of a text file, and those without a byte.
func (s *separated) sniff() error {
	if s.size == 0 {
		return s.whole(copyAgain, "the file is empty: it has no bytes at all")
	}
	head := make([]byte, min(s.size, 4096))
	if n, err := s.from.ReadAt(head, 0); n < len(head) {
		return broken(err, "the file cannot be read")
	}
	text := strings.ToLower(strings.TrimSpace(strings.TrimPrefix(string(head), "\xef\xbb\xbf")))
	switch {
	case bytes.HasPrefix(head, []byte("PK\x03\x04")), bytes.HasPrefix(head, []byte("\xd0\xcf\x11\xe0")):
		return s.whole("give it the ending that it had, or save it as .xlsx", "the file is a workbook or an archive under another name, not a text file")
	case strings.HasPrefix(text, "<?xml"), strings.HasPrefix(text, "<html"), strings.HasPrefix(text, "<table"), strings.HasPrefix(text, "<!doctype"):
		return s.whole(saveAs, "the file is %s under another name, not a table of separated texts", textKind(text))
	}
	for _, o := range openings() {
		if bytes.HasPrefix(head, []byte(o.begins)) && o.begins[0] != '\t' {
			return s.whole(o.todo, "the file is %s, not a text file", o.is)
		}
	}
	return nil
}

// declared reads a first line that says which sign separates the cells, as spreadsheet programs
// write and read it: sep=; alone, perhaps in quotation marks. They show no row for it.
func (s *separated) declared() (arrangement, bool, error) {
	line, whole, err := s.firstLine()
	if err != nil || !whole {
		return arrangement{}, false, err
	}
	said := strings.TrimRight(string(line), "\r\n")
	if strings.HasPrefix(said, `"`) && strings.HasSuffix(said, `"`) {
		said = said[1:max(1, len(said)-1)]
	}
	if len(said) < 5 || len([]rune(said)) != 5 || !strings.EqualFold(said[:4], "sep=") {
		return arrangement{}, false, nil
	}
	sign := said[4]
	if signName(sign) == "" {
		return arrangement{}, false, s.at(cell.Pos{}, "write "+declaring(signs[:]...)+", and separate the cells so",
			"line 1 says that %q separates the cells, and only commas, semicolons and tabs do", said[4:])
	}
	return arrangement{sign: sign, from: int64(len(line)), line: 2}, true, nil
}

// firstLine gives the first line of the text with what ends it, and whether it is short enough to
// declare anything.
func (s *separated) firstLine() (line []byte, whole bool, err error) {
	const longest = len(`"sep=`) + 4 + len("\"\r\n")
	err = s.each(0, func(b []byte) error {
		line = append(line, b[:min(len(b), longest+1-len(line))]...)
		if len(line) > longest {
			return errEnough
		}
		return nil
	})
	if err != nil && !errors.Is(err, errEnough) {
		return nil, false, err
	}
	for i, c := range line {
		switch {
		case c == '\r' && i+1 < len(line) && line[i+1] == '\n':
			return line[:i+2], true, nil
		case c == '\r', c == '\n':
			return line[:i+1], true, nil
		}
	}
	return line, len(line) <= longest, nil
}

// signName says what a sign is called that may separate cells, "" for another.
func signName(sign byte) string {
	switch sign {
	case ',':
		return "commas"
	case ';':
		return "semicolons"
	case '\t':
		return "tabs"
	}
	return ""
}

// whole is a fault of the file; todo says what to do.
func (s *separated) whole(todo, format string, args ...any) *Fault {
	f := fileFault(todo, format, args...)
	f.Sheet = s.name
	return f
}

// at is a fault at a cell, or in the sheet.
func (s *separated) at(pos cell.Pos, todo, format string, args ...any) *Fault {
	return spot{sheet: s.name}.tell(pos, todo, say(format, args))
}

// declaring says how to write in a first line which sign separates the cells.
func declaring(signs ...byte) string {
	var all []string
	for _, sign := range signs {
		if sign == '\t' {
			all = append(all, `"sep=" and a tab`)
			continue
		}
		all = append(all, fmt.Sprintf("\"sep=%c\"", sign))
	}
	return strings.Join(all, " or ")
}
