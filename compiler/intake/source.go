// Package intake finds the files of a catalogue, reads its workbooks into tables, and holds
// their rows against the schemas. What stands there twice, is no sheet of a catalogue, or
// cannot be read is told.
package intake

import (
	"cmp"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"ferrule/compiler/finding"
	"ferrule/compiler/reason"
	"ferrule/compiler/regular"
	"ferrule/schema"
	"ferrule/sheets/cell"
)

// ErrNoWorkbook says that there is nothing to read.
var ErrNoWorkbook = errors.New("no workbook")

// Source is a file of a catalogue.
type Source struct {
	Path string
	Name string // as messages call it

	instead string // the file that is read in its place, "" for none
}

// File is what is read: the workbook, or a copy that takes its place.
func (s *Source) File() string { return cmp.Or(s.instead, s.Path) }

// Replace has other files read in the place of workbooks, by their names.
func (s *Sources) Replace(by map[string]string) {
	for i := range s.Books {
		s.Books[i].instead = by[s.Books[i].Name]
	}
}

// Sources is all that a catalogue consists of.
type Sources struct {
	Books   []Source
	Schemas []schema.Extra
	Strange []Source // files that hold tables and are in no format that is read
}

// Find lists the workbooks of folders, and single workbooks, in name order, each once.
func Find(paths []string) (*Sources, error) {
	s := &Sources{}
	for _, path := range paths {
		info, err := os.Stat(path)
		switch {
		case err != nil:
			return nil, fmt.Errorf("%s cannot be read: %w", path, reason.Of(err))
		case info.IsDir():
			err = s.folder(path)
		default:
			s.Books = append(s.Books, Source{Path: path})
			err = s.stricter(filepath.Dir(path))
		}
		if err != nil {
			return nil, err
		}
	}
	if len(s.Books) == 0 {
		return nil, fmt.Errorf("%w with a name that ends in %s in %s", ErrNoWorkbook, Endings, strings.Join(paths, ", "))
	}
	s.name()
	return s, nil
}

func (s *Sources) folder(dir string) error {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return fmt.Errorf("the folder %s cannot be read: %w", dir, reason.Of(err))
	}
	for _, e := range entries {
		file := Source{Path: filepath.Join(dir, e.Name())}
		switch role := RoleOf(e.Name()); {
		case e.IsDir():
		case role == Workbook:
			s.Books = append(s.Books, file)
		case role == Strange:
			s.Strange = append(s.Strange, file)
		}
	}
	return s.stricter(dir)
}

// Role is what a file in a catalogue's folder is taken for.
type Role uint8

const (
	Ignored  Role = iota
	Workbook      // it is read
	Schema        // it makes the rules for a kind of sheet stricter
	Strange       // it holds tables in a format that is not read, and a finding says so
)

// RoleOf tells by its name what a file in a catalogue's folder is.
func RoleOf(name string) Role {
	if strings.HasSuffix(name, schemaSuffix) {
		return Schema
	}
	if strings.HasPrefix(name, ".") || strings.HasPrefix(name, "~$") {
		return Ignored
	}
	switch strings.ToLower(filepath.Ext(name)) {
	case ".xlsx", ".xlsm", ".csv", ".tsv":
		return Workbook
	case ".xls", ".xlsb", ".ods", ".fods", ".numbers":
		return Strange
	case ".txt":
		// Most are notes; one called like a sheet was probably saved by a spreadsheet program.
		if _, known := schema.KindOf(name); known {
			return Strange
		}
	}
	return Ignored
}

// Endings are those of workbooks, as messages name them.
const Endings = ".xlsx, .xlsm, .csv or .tsv"

// schemaSuffix ends the names of a catalogue's own schemas: parts.schema.json.
const schemaSuffix = ".schema.json"

// MaxSchema bounds the size of a schema file in bytes.
const MaxSchema = 1 << 20

// stricter reads the schemas that stand beside the workbooks.
func (s *Sources) stricter(dir string) error {
	paths, err := filepath.Glob(filepath.Join(escapeGlob(dir), "*"+schemaSuffix))
	if err != nil {
		panic("intake: stricter: bad pattern")
	}
	slices.Sort(paths)
	for _, path := range paths {
		name := filepath.Base(path)
		if slices.ContainsFunc(s.Schemas, func(x schema.Extra) bool { return x.Name == name }) {
			continue
		}
		data, err := regular.Read(os.DirFS(dir), name, MaxSchema)
		if err != nil {
			return fmt.Errorf("%s cannot be read: %w", path, reason.Of(err))
		}
		s.Schemas = append(s.Schemas, schema.Extra{Name: name, Data: data})
	}
	return nil
}

func escapeGlob(dir string) string {
	return strings.NewReplacer(`*`, `[*]`, `?`, `[?]`, `[`, `[[]`).Replace(dir)
}

// name gives each file its name in messages: the name without the folder, and with it
// where two folders hold the same name.
func (s *Sources) name() {
	s.Books = unique(s.Books)
	count := map[string]int{}
	for _, b := range s.Books {
		count[filepath.Base(b.Path)]++
	}
	for i := range s.Books {
		b := &s.Books[i]
		if b.Name = filepath.Base(b.Path); count[b.Name] > 1 {
			b.Name = filepath.ToSlash(filepath.Clean(b.Path))
		}
	}
	slices.SortFunc(s.Books, func(a, b Source) int { return strings.Compare(a.Name, b.Name) })
	for i := range s.Strange {
		s.Strange[i].Name = filepath.Base(s.Strange[i].Path)
	}
}

// FolderOf gives the folder of a workbook by its name in messages.
func (s *Sources) FolderOf(name string) string {
	for _, b := range s.Books {
		if b.Name == name {
			return filepath.Dir(b.Path)
		}
	}
	panic("intake: FolderOf: no workbook " + name)
}

// unique drops paths that lead to a file that is listed already.
func unique(books []Source) []Source {
	var out []Source
	var infos []os.FileInfo
	for _, b := range books {
		info, err := os.Stat(b.Path)
		if err == nil && slices.ContainsFunc(infos, func(x os.FileInfo) bool { return os.SameFile(x, info) }) {
			continue
		}
		if err == nil {
			infos = append(infos, info)
		}
		out = append(out, b)
	}
	return out
}

// strange says that a file holds tables in a format that is not read.
func strange(s Source) *finding.Finding {
	f := &finding.Finding{Code: finding.FileIgnored, Severity: finding.Warning,
		Message: fmt.Sprintf("%s is left alone: only files whose names end in %s are read", s.Name, Endings),
		Cells:   finding.At(cell.Place{Sheet: &cell.Sheet{File: s.Name}}),
		Fix:     "if it belongs to the catalogue, open it in your spreadsheet program and save it as .xlsx; otherwise move it out of the folder"}
	if strings.EqualFold(filepath.Ext(s.Name), ".txt") {
		f.Fix = "if it is a table of the catalogue, give it the ending .tsv where tabs separate its cells, or .csv; otherwise move it out of the folder"
	}
	return f
}
