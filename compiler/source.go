package compiler

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"ferrule/schema"
)

// ErrNoWorkbook says that there is nothing to read.
var ErrNoWorkbook = errors.New("no workbook")

// Input names what is read: folders, each with its workbooks, or single workbooks.
type Input struct {
	Paths []string
}

// source is a workbook to read.
type source struct {
	path string
	name string // as messages call it
}

// sources is all that a catalogue consists of.
type sources struct {
	books   []source
	schemas []schema.Extra
	strange []source // files that hold tables and are in no format that is read
}

// find lists the workbooks of the input in name order, each once.
func find(in Input) (*sources, error) {
	s := &sources{}
	for _, path := range in.Paths {
		info, err := os.Stat(path)
		switch {
		case err != nil:
			return nil, fmt.Errorf("%s cannot be read: %w", path, reason(err))
		case info.IsDir():
			err = s.folder(path)
		default:
			s.books = append(s.books, source{path: path})
			err = s.stricter(filepath.Dir(path))
		}
		if err != nil {
			return nil, err
		}
	}
	if len(s.books) == 0 {
		return nil, fmt.Errorf("%w with a name that ends in .xlsx or .xlsm in %s", ErrNoWorkbook, strings.Join(in.Paths, ", "))
	}
	s.name()
	return s, nil
}

// reason cuts the path off a file system error: the message names it already.
func reason(err error) error {
	var p *os.PathError
	if errors.As(err, &p) {
		return p.Err
	}
	return err
}

func (s *sources) folder(dir string) error {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return fmt.Errorf("the folder %s cannot be read: %w", dir, reason(err))
	}
	for _, e := range entries {
		file := source{path: filepath.Join(dir, e.Name())}
		switch role := RoleOf(e.Name()); {
		case e.IsDir():
		case role == Workbook:
			s.books = append(s.books, file)
		case role == Strange:
			s.strange = append(s.strange, file)
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
	case ".xlsx", ".xlsm":
		return Workbook
	case ".xls", ".xlsb", ".ods", ".csv", ".tsv", ".numbers":
		return Strange
	}
	return Ignored
}

// schemaSuffix ends the names of a catalogue's own schemas: parts.schema.json.
const schemaSuffix = ".schema.json"

// maxSchema bounds the size of a schema file in bytes.
const maxSchema = 1 << 20

// stricter reads the schemas that stand beside the workbooks.
func (s *sources) stricter(dir string) error {
	paths, err := filepath.Glob(filepath.Join(escapeGlob(dir), "*"+schemaSuffix))
	if err != nil {
		panic("compiler: stricter: bad pattern")
	}
	slices.Sort(paths)
	for _, path := range paths {
		name := filepath.Base(path)
		if slices.ContainsFunc(s.schemas, func(x schema.Extra) bool { return x.Name == name }) {
			continue
		}
		info, err := os.Stat(path)
		if err != nil {
			return fmt.Errorf("%s cannot be read: %w", path, reason(err))
		}
		if info.Size() > maxSchema {
			return fmt.Errorf("%s is larger than %d bytes, which no schema of a sheet is", path, maxSchema)
		}
		data, err := os.ReadFile(path)
		if err != nil {
			return fmt.Errorf("%s cannot be read: %w", path, reason(err))
		}
		s.schemas = append(s.schemas, schema.Extra{Name: name, Data: data})
	}
	return nil
}

func escapeGlob(dir string) string {
	return strings.NewReplacer(`*`, `[*]`, `?`, `[?]`, `[`, `[[]`).Replace(dir)
}

// name gives each file its name in messages: the name without the folder, and with it
// where two folders hold the same name.
func (s *sources) name() {
	s.books = unique(s.books)
	count := map[string]int{}
	for _, b := range s.books {
		count[filepath.Base(b.path)]++
	}
	for i := range s.books {
		b := &s.books[i]
		if b.name = filepath.Base(b.path); count[b.name] > 1 {
			b.name = filepath.ToSlash(filepath.Clean(b.path))
		}
	}
	slices.SortFunc(s.books, func(a, b source) int { return strings.Compare(a.name, b.name) })
	for i := range s.strange {
		s.strange[i].name = filepath.Base(s.strange[i].path)
	}
}

// folderOf gives the folder of a workbook by its name in messages.
func (s *sources) folderOf(name string) string {
	for _, b := range s.books {
		if b.name == name {
			return filepath.Dir(b.path)
		}
	}
	panic("compiler: folderOf: no workbook " + name)
}

// unique drops paths that lead to a file that is listed already.
func unique(books []source) []source {
	var out []source
	var infos []os.FileInfo
	for _, b := range books {
		info, err := os.Stat(b.path)
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
