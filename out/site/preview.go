package site

import (
	"context"
	"errors"
	"strings"
	"sync"

	"ferrule/compiler"
	"ferrule/compiler/model"
	"ferrule/out/address"
	"ferrule/out/guide"
	"ferrule/out/offer"
)

// Preview makes files of the public folder one at a time, the bytes that publishing the whole
// catalogue gives them: for somebody who looks at a page while the sheets are edited.
type Preview struct {
	r         *compiler.Result
	book      *address.Book
	platforms map[string]*model.Platform // by the files of their pages
	parts     map[string]*model.Part

	mu    sync.Mutex
	pages *guide.Writer
	made  map[string][]byte // what Start makes, and the pictures
	shown bool              // the pictures are among them
	last  []byte            // the page that was made last
}

// NewPreview prepares pages. o is taken as Fill takes it, but for News, which all pages together
// tell. An error says that the theme is at fault.
func NewPreview(ctx context.Context, r *compiler.Result, o Options) (*Preview, error) {
	p := &Preview{r: r, book: address.New(r.Catalogue, o.Earlier), made: map[string][]byte{},
		platforms: map[string]*model.Platform{}, parts: map[string]*model.Part{}}
	for _, pl := range r.Catalogue.Platforms {
		p.platforms[p.book.Platform(pl)] = pl
	}
	for _, part := range r.Catalogue.Parts {
		p.parts[p.book.Part(part)] = part
	}
	var err error
	p.pages, err = guide.New(ctx, r.Catalogue, guide.Options{Draft: o.Draft, Fragment: o.Fragment, Theme: o.Theme, Addresses: p.book, Pictures: r.Pictures}, p.keep)
	if err != nil {
		return nil, err
	}
	if err := p.pages.Start(); err != nil {
		return nil, err
	}
	return p, nil
}

// keep takes what the pages make.
func (p *Preview) keep(name string, page []byte) error {
	page = append([]byte(nil), page...)
	p.last = page
	if p.platforms[name] == nil && p.parts[name] == nil {
		p.made[name] = page
	}
	return nil
}

// File gives a file; nil where the whole catalogue together makes it, or makes it sooner.
func (p *Preview) File(name string) ([]byte, error) {
	p.mu.Lock()
	defer p.mu.Unlock()
	if strings.HasPrefix(name, "pictures/") && !p.shown {
		if err := p.pages.Pictures(); err != nil {
			return nil, err
		}
		p.shown = true
	}
	if data := p.made[name]; data != nil {
		return data, nil
	}
	if pl := p.platforms[name]; pl != nil {
		err := p.pages.Platform(p.r.Guide(pl))
		return p.last, err
	}
	if part := p.parts[name]; part != nil {
		if on := offer.Platforms(p.r.Catalogue, part); len(on) <= mostAlone {
			err := p.part(part, on)
			return p.last, err
		}
	}
	return nil, nil
}

// mostAlone is of how many platforms guides are worked out for the page of one part: of more, all
// pages together are made in less time than people wait for two such pages.
const mostAlone = 8

// part makes the page of a part from the guides of the platforms that have something to say of it.
func (p *Preview) part(part *model.Part, on []*model.Platform) (err error) {
	offers := offer.New(p.r.Catalogue, "")
	defer func() { err = errors.Join(err, offers.Close()) }()
	for _, pl := range on {
		g := p.r.Guide(pl)
		p.pages.Know(g)
		if err := offers.Add(g); err != nil {
			return err
		}
	}
	list, rules, against, err := offers.About(part)
	if err != nil {
		return err
	}
	return p.pages.Part(part, list, rules, against)
}
