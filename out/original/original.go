// Package original keeps hold of the workbooks of a catalogue while copies of them are made: which
// bytes each had before the catalogue was compiled, so that a copy is of those and no others, and
// what its copy is called. Workbooks are only read.
package original

import (
	"crypto/sha256"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"ferrule/compiler/intake"
	"ferrule/compiler/reason"
	"ferrule/compiler/regular"
	"ferrule/out/patch"
)

// ErrChanged says that a workbook is not any more what was compiled.
var ErrChanged = errors.New("it has changed meanwhile")

// Books are the workbooks of a catalogue.
type Books struct {
	Names []string // as findings call them, in the order of intake.Sources

	paths map[string]string
	sums  map[string][sha256.Size]byte
}

// Note keeps which bytes the workbooks hold. It comes before they are compiled.
func Note(paths []string) (*Books, error) {
	src, err := intake.Find(paths)
	if err != nil {
		return nil, err
	}
	o := &Books{paths: map[string]string{}, sums: map[string][sha256.Size]byte{}}
	for _, b := range src.Books {
		o.Names = append(o.Names, b.Name)
		o.paths[b.Name] = b.Path
		if data, err := o.read(b.Name); err == nil {
			o.sums[b.Name] = sha256.Sum256(data)
		}
	}
	return o, nil
}

func (o *Books) read(name string) ([]byte, error) {
	dir, base := filepath.Split(o.paths[name])
	if dir == "" {
		dir = "."
	}
	data, err := regular.Read(os.DirFS(dir), base, patch.MaxFile)
	if err != nil {
		return nil, reason.Of(err)
	}
	return data, nil
}

// Bytes gives a workbook as it was compiled; ErrChanged where it is another one now.
func (o *Books) Bytes(name string) ([]byte, error) {
	data, err := o.read(name)
	if err != nil {
		return nil, err
	}
	if sha256.Sum256(data) != o.sums[name] {
		return nil, ErrChanged
	}
	return data, nil
}

// File names the copy of a workbook: as the workbook, with a number where two have one name.
func (o *Books) File(name string) string {
	base := filepath.Base(o.paths[name])
	n := 1
	for _, other := range o.Names {
		if other == name {
			break
		}
		if strings.EqualFold(filepath.Base(o.paths[other]), base) {
			n++
		}
	}
	if n == 1 {
		return base
	}
	ext := filepath.Ext(base)
	return fmt.Sprintf("%s (%d)%s", strings.TrimSuffix(base, ext), n, ext)
}
