// Package guide makes the pages that workshops, counters and owners read: an index, a
// page for each platform, a page for each part, and their style sheet.
//
// The pages stand alone: no script, no inline style, nothing from another host. They
// hold what the catalogue makes public and nothing else: no cells, no findings, no
// counts, no internal notes. What is not settled is never shown as a fit.
//
// The way of the data: a site is the catalogue with every address and every
// cross-reference worked out once; a page struct (index.go, platform.go, part.go) is
// all that one page says, in order; the templates only lay it out. html/template does
// all the escaping, so no page struct holds markup.
package guide

import (
	"bytes"
	"embed"
	"fmt"
	"html/template"

	"ferrule/compiler/decide"
	"ferrule/compiler/model"
)

// Options of a set of pages. What else they need comes from the catalogue's settings;
// nothing comes from the clock, so that the same catalogue gives the same bytes.
type Options struct {
	Draft bool // every page says that it must not be used
}

// Emit takes one finished file. The name is a slash path relative to the public
// folder; data is only valid during the call.
type Emit func(name string, data []byte) error

//go:embed templates/*.tmpl
var templates embed.FS

//go:embed style.css
var styleSheet []byte

// Pages makes all pages, one at a time, in a fixed order: the style sheet, the index,
// the platforms and the parts as the catalogue has them. guides holds one guide per
// platform. The only errors are those of emit.
func Pages(cat *model.Catalogue, guides []*decide.Guide, o Options, emit Emit) error {
	s := newSite(cat, guides, o)
	p := press{layout: layout(), emit: emit}
	if err := emit("style.css", styleSheet); err != nil {
		return fmt.Errorf("writing style.css: %w", err)
	}
	if err := p.print(s.indexFile(), "index.tmpl", s.index()); err != nil {
		return err
	}
	for _, g := range guides {
		if err := p.print(s.platformFiles[g.Platform], "platform.tmpl", s.platformPage(g)); err != nil {
			return err
		}
	}
	for _, part := range cat.Parts {
		if err := p.print(s.partFiles[part], "part.tmpl", s.partPage(part)); err != nil {
			return err
		}
	}
	return nil
}

// press lays pages out in one buffer that all pages share.
type press struct {
	layout *template.Template
	emit   Emit
	buffer bytes.Buffer
}

func (p *press) print(name, tmpl string, page any) error {
	p.buffer.Reset()
	if err := p.layout.ExecuteTemplate(&p.buffer, tmpl, page); err != nil {
		panic("guide: a template does not fit its page: " + err.Error())
	}
	if err := p.emit(name, p.buffer.Bytes()); err != nil {
		return fmt.Errorf("writing %s: %w", name, err)
	}
	return nil
}

func layout() *template.Template {
	funcs := template.FuncMap{"sep": separator, "mul": times}
	return template.Must(template.New("").Funcs(funcs).ParseFS(templates, "templates/*.tmpl"))
}

// separator gives what stands before item i of n in a list of words.
func separator(i, n int, last string) string {
	switch {
	case i == 0:
		return ""
	case i == n-1:
		return " " + last + " "
	}
	return ", "
}

// times says a quantity before what it counts.
func times(n int) string { return fmt.Sprintf("%d\u00a0×", n) }
