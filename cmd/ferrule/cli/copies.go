package cli

import (
	"context"
	"crypto/sha256"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"ferrule/compiler/intake"
	"ferrule/compiler/reason"
	"ferrule/compiler/regular"
	"ferrule/out/folder"
	"ferrule/out/patch"
)

// originals are the workbooks of a catalogue of which copies are made. They are only read.
type originals struct {
	names []string // in the order of intake.Sources
	paths map[string]string
	sums  map[string][sha256.Size]byte
}

// note keeps which bytes the workbooks hold before they are compiled: a copy is made of those and no
// others.
func note(paths []string) (*originals, error) {
	src, err := intake.Find(paths)
	if err != nil {
		return nil, err
	}
	o := &originals{paths: map[string]string{}, sums: map[string][sha256.Size]byte{}}
	for _, b := range src.Books {
		o.names = append(o.names, b.Name)
		o.paths[b.Name] = b.Path
		if data, err := o.bytes(b.Name); err == nil {
			o.sums[b.Name] = sha256.Sum256(data)
		}
	}
	return o, nil
}

func (o *originals) bytes(name string) ([]byte, error) {
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

// same gives the bytes of a workbook as it was compiled.
func (o *originals) same(name string) ([]byte, error) {
	data, err := o.bytes(name)
	if err != nil {
		return nil, err
	}
	if sha256.Sum256(data) != o.sums[name] {
		return nil, fmt.Errorf("it has changed meanwhile; run this again")
	}
	return data, nil
}

// target names the copy of a workbook: as the workbook, with a number where two have one name.
func (o *originals) target(name string) string {
	base := filepath.Base(o.paths[name])
	n := 1
	for _, other := range o.names {
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

// copied is a workbook that is written.
type copied struct {
	name string // of the file
	data []byte
}

// place writes copies into a folder, which is replaced as a whole.
func place(ctx context.Context, cmd *cobra.Command, dir string, sources []string, copies []copied) (err error) {
	waiting := func() {
		say(cmd.ErrOrStderr(), "another run writes to %s; waiting until it has ended", dir)
	}
	to, err := folder.Hold(ctx, dir, sources, waiting)
	if err != nil {
		return err
	}
	defer func() { err = first(err, to.Close()) }()
	for _, c := range copies {
		err := to.File(c.name, func(w io.Writer) error { _, err := w.Write(c.data); return err })
		if err != nil {
			return err
		}
	}
	return to.Put(ctx)
}
