package picture

import (
	"context"
	"crypto/sha256"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"strings"

	"ferrule/compiler/model"
	"ferrule/compiler/parallel"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
	"ferrule/sheets/guard"
)

// Set is the pictures of a catalogue.
type Set struct {
	folder func(file string) string
	by     map[source]*Picture
	all    []*Picture
}

// Of gives a picture that is named; nil where none is, or none that can be shown.
func (s *Set) Of(p model.Picture) *Picture {
	if s == nil || p.Name == "" || p.At.Sheet == nil {
		return nil
	}
	return s.by[source{s.folder(p.At.Sheet.File), p.Name}]
}

// All gives every picture once, in the order in which the catalogue names them. Two
// files with the same content are one picture.
func (s *Set) All() []*Picture {
	if s == nil {
		return nil
	}
	return s.all
}

// known gives a picture of the same bytes that was looked at before; nil where there is none.
func (s *Set) known(from source, data []byte, r *room) *Picture {
	if s == nil {
		return nil
	}
	sum := sha256.Sum256(data)
	for _, p := range s.all {
		if p.sum == sum {
			again := *p
			again.from, again.room = from, r
			return &again
		}
	}
	return nil
}

// Options of loading.
type Options struct {
	Folder  func(file string) string // where a workbook lies, by its name in messages
	Workers int                      // at least 1
	Before  *Set                     // what was looked at before, and need not be again where its bytes are the same; nil: nothing
}

// Fault says that a picture cannot be published.
type Fault struct {
	Missing bool   // no such file; else there is one, and it cannot be shown
	Message string // what is wrong, in the words of the workbook
	Fix     string // what to write or to do instead
	Cells   []cell.Place
}

// Load looks at all pictures that a catalogue names, each once, and reports those that
// are missing or cannot be shown. The error is the context's.
func Load(ctx context.Context, cat *model.Catalogue, o Options, report func(*Fault)) (*Set, error) {
	s := &Set{folder: o.Folder, by: map[source]*Picture{}}
	var order []source
	named := map[source][]model.Picture{}
	for _, p := range cat.Pictures() {
		from := source{o.Folder(p.At.Sheet.File), p.Name}
		if named[from] == nil {
			order = append(order, from)
		}
		named[from] = append(named[from], p)
	}
	all := newRoom()
	pictures, faults := make([]*Picture, len(order)), make([]*Fault, len(order))
	parallel.Each(len(order), o.Workers, func(_, i int) {
		defer guard.About(fmt.Sprintf("looking at the picture %q of %s", order[i].name, named[order[i]][0].At.Sheet.File))
		if ctx.Err() == nil {
			pictures[i], faults[i] = inspect(order[i], all, o.Before)
		}
	})
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	same := map[[32]byte]*Picture{}
	for i, from := range order {
		if f := faults[i]; f != nil {
			for _, p := range named[from] {
				f.Cells = append(f.Cells, p.At)
			}
			report(f)
			continue
		}
		p := pictures[i]
		if same[p.sum] == nil {
			same[p.sum] = p
			s.all = append(s.all, p)
		}
		s.by[from] = same[p.sum]
	}
	return s, nil
}

// inspect reads one file and judges it, where that has not been done before.
func inspect(from source, r *room, before *Set) (*Picture, *Fault) {
	if why := badName(from.name); why != "" {
		return nil, missing(fmt.Sprintf("%q is no picture beside the workbook: %s", from.name, why),
			"write the name of a file in the workbook's folder, or in a folder below it: pictures/arm.jpg")
	}
	data, err := from.read()
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, missing(fmt.Sprintf("there is no picture %q in the workbook's folder%s", from.name, near(from)),
			"put the file there, mend its name, or clear the cell")
	case err == nil:
		p := before.known(from, data, r)
		if p != nil {
			return p, nil
		}
		if p, err = look(from, data, r); err == nil {
			return p, nil
		}
	}
	if at := (*fs.PathError)(nil); errors.As(err, &at) {
		err = at.Err // the message names the file
	}
	f := &Fault{Message: fmt.Sprintf("the picture %q cannot be shown: %s", from.name, err),
		Fix: "save it again as a PNG or a JPEG, or clear the cell"}
	if large := (*errLarge)(nil); errors.As(err, &large) {
		f.Fix = "save it again with fewer pixels, as a plain PNG or JPEG, or clear the cell"
	}
	return nil, f
}

func missing(message, fix string) *Fault { return &Fault{Missing: true, Message: message, Fix: fix} }

// badName says what is wrong with a name before anything is looked for, "" for nothing.
func badName(name string) string {
	switch {
	case strings.Contains(name, "://"):
		return "an address of the web is never fetched"
	case strings.Contains(name, `\`):
		return `folders are divided by /, not by \`
	case !fs.ValidPath(name) || !filepath.IsLocal(filepath.FromSlash(name)):
		return "a name has no steps . and .., and no / at its beginning or end"
	}
	return ""
}

// near names a file of the same folder with nearly the same name.
func near(from source) string {
	root, err := os.OpenRoot(from.folder)
	if err != nil {
		return ""
	}
	defer root.Close()
	dir := path.Dir(from.name)
	entries, err := fs.ReadDir(root.FS(), dir)
	if err != nil {
		return ""
	}
	var names []string
	for _, e := range entries {
		switch strings.ToLower(path.Ext(e.Name())) {
		case ".png", ".jpg", ".jpeg", ".webp", ".svg":
			names = append(names, path.Join(dir, e.Name()))
		}
	}
	return word.DidYouMean(from.name, names)
}
