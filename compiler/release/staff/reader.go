package staff

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"

	"ferrule/compiler/finding"
	"ferrule/compiler/model"
	"ferrule/compiler/reason"
	"ferrule/compiler/regular"
	"ferrule/sheets/cell"
)

// maxFile bounds a file of the staff's folder in bytes.
const maxFile = 2 << 30

// load reads one file; the name may come from another file and must stay in the folder.
func load(folder fs.FS, name string, into any) (err error) {
	if !fs.ValidPath(name) {
		return fmt.Errorf("%q is no name of a file in the staff's folder", name)
	}
	f, err := regular.Open(folder, name, maxFile)
	if err != nil {
		return fmt.Errorf("%s cannot be read: %w", name, reason.Of(err))
	}
	defer func() { err = errors.Join(err, f.Close()) }()
	d := json.NewDecoder(f)
	if err := d.Decode(into); err != nil {
		return fmt.Errorf("%s is not what a build writes for the staff: %w", name, err)
	}
	if _, err := d.Token(); err != io.EOF {
		return fmt.Errorf("%s is not what a build writes for the staff: something follows", name)
	}
	return nil
}

// reader resolves the names in the staff's files and keeps the first fault.
type reader struct {
	file      string // that is read
	err       error
	platforms map[string]*model.Platform
	traits    map[string]*model.Trait
	positions map[string]*model.Position
	parts     map[string]*model.Part
	cautions  map[string]*model.Caution
	sheets    map[[2]string]*cell.Sheet
	packer    *finding.Packer
}

func newReader(file string) *reader {
	return &reader{file: file, platforms: map[string]*model.Platform{}, traits: map[string]*model.Trait{},
		positions: map[string]*model.Position{}, parts: map[string]*model.Part{}, cautions: map[string]*model.Caution{}, sheets: map[[2]string]*cell.Sheet{}, packer: finding.NewPacker()}
}

func (r *reader) fail(format string, args ...any) {
	if r.err == nil {
		r.err = fmt.Errorf("%s is not what a build writes for the staff: %s", r.file, fmt.Sprintf(format, args...))
	}
}
