// Package site publishes a compiled catalogue: a folder `public` for the world with
// pages and JSON, and a folder `staff` with everything.
//
// The target is replaced as a whole or not at all (package folder). Hold it before compiling,
// so that what stands in the way is told early, and call Fill afterwards.
package site

import (
	"context"
	"errors"
	"io"

	"ferrule/compiler"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/release/staff"
	"ferrule/out/address"
	"ferrule/out/data"
	"ferrule/out/folder"
	"ferrule/out/guide"
	"ferrule/out/news"
	"ferrule/out/offer"
)

// Options of a published catalogue.
type Options struct {
	Draft    bool              // pages say that they must not be used
	Fragment bool              // pages without the frame
	Theme    *guide.Theme      // nil: none
	Earlier  *address.Register // of an earlier build, whose addresses stay; nil: none
	Today    string            // the day of the release, as an ISO date; "": pages have no dates
	News     *news.News        // what has changed since that build; nil: nothing is said of it
}

// dated is what the earlier build has recorded of its pages.
func (o *Options) dated() []address.Dated {
	if o.Earlier == nil {
		return nil
	}
	return o.Earlier.Dates
}

// Counts says what was published.
type Counts struct {
	Guides int
	Files  int
	Bytes  int64
}

// writer writes into the new folder.
type writer struct {
	ctx context.Context
	to  *folder.Held
}

// all writes both folders. Pages and data of a platform are made together, and so are
// those of a part, so that only what each says is in memory.
func (w *writer) all(r *compiler.Result, o Options) (err error) {
	cat := r.Catalogue
	book := address.New(cat, o.Earlier)
	for _, r := range o.News.Renamed() {
		book.Rename(r.What, r.Old, r.New)
	}
	offers := offer.New(cat, w.to.Root())
	defer func() { err = errors.Join(err, offers.Close()) }()
	pages, err := guide.New(w.ctx, cat, guide.Options{Draft: o.Draft, Fragment: o.Fragment, Theme: o.Theme, Addresses: book, News: o.News, Pictures: r.Pictures, Today: o.Today, Dated: o.dated()}, w.page)
	if err != nil {
		return err
	}
	if err := pages.Start(); err != nil {
		return err
	}
	if err := each(len(r.Guides), func(i int) error { return w.platform(r.Guides[i].Open(), cat, book, pages, offers) }); err != nil {
		return err
	}
	relations := model.NewRelations(cat)
	if err := each(len(cat.Parts), func(i int) error { return w.part(cat.Parts[i], relations, book, pages, offers) }); err != nil {
		return err
	}
	if err := pages.Finish(); err != nil {
		return err
	}
	err = w.file("public/catalogue.json", func(out io.Writer) error { return data.PublicCatalogue(out, cat, book) })
	if err != nil {
		return err
	}
	if o.News != nil {
		err = w.file("public/changes.json", func(out io.Writer) error { return data.PublicNews(out, cat, o.News, book) })
		if err != nil {
			return err
		}
	}
	register := book.Register()
	register.Dates = pages.Dates()
	return w.staff(r, book, register)
}

// page takes what the pages makes.
func (w *writer) page(name string, page []byte) error {
	return w.file("public/"+name, func(out io.Writer) error {
		_, err := out.Write(page)
		return err
	})
}

// platform writes all that is about one platform, and has its offers written down.
func (w *writer) platform(g *decide.Guide, cat *model.Catalogue, book *address.Book, pages *guide.Writer, offers *offer.Store) error {
	if err := offers.Add(g); err != nil {
		return err
	}
	if err := pages.Platform(g); err != nil {
		return err
	}
	file := book.PlatformData(g.Platform)
	err := w.file("public/"+file, func(out io.Writer) error { return data.PublicGuide(out, cat, g) })
	if err != nil {
		return err
	}
	return w.file("staff/"+file, func(out io.Writer) error { return staff.Guide(out, cat, g) })
}

// part writes all that is about one part.
func (w *writer) part(p *model.Part, rel *model.Relations, book *address.Book, pages *guide.Writer, offers *offer.Store) error {
	list, rules, against, err := offers.About(p)
	if err != nil {
		return err
	}
	if err := pages.Part(p, list, rules, against); err != nil {
		return err
	}
	return w.file("public/"+book.PartData(p), func(out io.Writer) error { return data.PublicPart(out, p, rel, list, rules, against, book) })
}

func (w *writer) staff(r *compiler.Result, book *address.Book, register *address.Register) error {
	files := []struct {
		name  string
		write func(io.Writer) error
	}{
		{"findings.json", func(out io.Writer) error { return staff.Findings(out, r.Findings, r.Since) }},
		{"coverage.json", func(out io.Writer) error { return data.Coverage(out, r.Guides) }},
		{"catalogue.json", func(out io.Writer) error { return staff.Catalogue(out, r.Catalogue, book.PlatformData) }},
		{"sheets.json", func(out io.Writer) error { return staff.Sheets(out, r.Sheets) }},
		{address.File, register.Write},
	}
	for _, f := range files {
		if err := w.file("staff/"+f.name, f.write); err != nil {
			return err
		}
	}
	return nil
}

// file writes one file, unless the context has ended.
func (w *writer) file(name string, write func(io.Writer) error) error {
	if err := w.ctx.Err(); err != nil {
		return err
	}
	return w.to.File(name, write)
}
