// Package site publishes a compiled catalogue: a folder `public` for the world with
// pages and JSON, and a folder `staff` with everything.
//
// The target is replaced as a whole or not at all, and only if it is new, empty or
// holds nothing but an earlier output of this package. Call Check before compiling,
// to refuse early, and Publish afterwards.
package site

import (
	"bufio"
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"ferrule/compiler"
	"ferrule/compiler/decide"
	"ferrule/out/data"
	"ferrule/out/guide"
)

// Options of a published catalogue.
type Options struct {
	Draft bool // pages say that they must not be used
}

// Counts says what was published.
type Counts struct {
	Guides int
	Files  int
	Bytes  int64
}

// writer writes files below one folder and keeps a list of them.
type writer struct {
	ctx   context.Context
	root  string
	names []string // slash paths relative to root
	bytes int64
}

// all writes both folders.
func (w *writer) all(r *compiler.Result, o Options) error {
	if err := w.public(r, o); err != nil {
		return err
	}
	return w.staff(r)
}

func (w *writer) public(r *compiler.Result, o Options) error {
	err := guide.Pages(r.Catalogue, r.Guides, guide.Options{Draft: o.Draft}, func(name string, page []byte) error {
		return w.file("public/"+name, func(out io.Writer) error {
			_, err := out.Write(page)
			return err
		})
	})
	if err != nil {
		return err
	}
	err = w.file("public/catalogue.json", func(out io.Writer) error { return data.PublicCatalogue(out, r.Catalogue) })
	if err != nil {
		return err
	}
	return w.guides("public/", r, func(out io.Writer, g *decide.Guide) error {
		return data.PublicGuide(out, r.Catalogue, g)
	})
}

func (w *writer) staff(r *compiler.Result) error {
	files := []struct {
		name  string
		write func(io.Writer) error
	}{
		{"findings.json", func(out io.Writer) error { return data.Findings(out, r.Findings, r.Since) }},
		{"coverage.json", func(out io.Writer) error { return data.Coverage(out, r.Guides) }},
		{"catalogue.json", func(out io.Writer) error { return data.StaffCatalogue(out, r.Catalogue) }},
	}
	for _, f := range files {
		if err := w.file("staff/"+f.name, f.write); err != nil {
			return err
		}
	}
	return w.guides("staff/", r, func(out io.Writer, g *decide.Guide) error {
		return data.StaffGuide(out, r.Catalogue, g)
	})
}

// guides writes one file per platform, one at a time.
func (w *writer) guides(folder string, r *compiler.Result, write func(io.Writer, *decide.Guide) error) error {
	names := data.GuideFiles(r.Catalogue)
	for _, g := range r.Guides {
		err := w.file(folder+names[g.Platform.Index], func(out io.Writer) error { return write(out, g) })
		if err != nil {
			return err
		}
	}
	return nil
}

// file writes one file, whose name is a slash path below the root. A name twice is a
// broken invariant: the second would replace the first.
func (w *writer) file(name string, write func(io.Writer) error) error {
	if err := w.ctx.Err(); err != nil {
		return err
	}
	local := filepath.FromSlash(name)
	if !filepath.IsLocal(local) {
		panic(fmt.Sprintf("site: the name %q leads out of the folder", name))
	}
	path := filepath.Join(w.root, local)
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return err
	}
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return err
	}
	counted := &counter{w: bufio.NewWriter(f)}
	err = write(counted)
	if err == nil {
		err = counted.w.Flush()
	}
	if closed := f.Close(); err == nil {
		err = closed
	}
	w.names = append(w.names, name)
	w.bytes += counted.n
	return err
}

type counter struct {
	w *bufio.Writer
	n int64
}

func (c *counter) Write(b []byte) (int, error) {
	n, err := c.w.Write(b)
	c.n += int64(n)
	return n, err
}
