package guide

import (
	"context"
	"fmt"
	"slices"

	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/out/address"
	"ferrule/out/offer"
	"ferrule/out/tongue"
)

// Writer makes the pages of one catalogue in all its languages: Start, then Platform for each platform,
// then Part for each part, then Finish. Platform and Part may be called by several goroutines,
// which then call emit as well.
type Writer struct {
	theme   *Theme
	files   assets
	emit    Emit
	shelves []*shelf // that of the workbooks' language first
	dates   *dates
}

// New prepares the pages of a catalogue. An error says that the theme is at fault. With the
// context ends what templates of a theme make long.
func New(ctx context.Context, cat *model.Catalogue, o Options, emit Emit) (*Writer, error) {
	all := editions(cat, o)
	var spoken []*tongue.Tongue
	for _, e := range all {
		spoken = append(spoken, e.tongue)
	}
	p := &Writer{theme: o.Theme, files: o.Theme.assets(o.Fragment, spoken...), dates: newDates(o.Today, o.Dated), emit: emit}
	for i, e := range all {
		if w := e.words(); w.name != "" {
			e.scripts = w.name
			p.files[e.folder+wordsFile] = asset{e.folder + w.name, w.data}
		}
		layout, err := o.Theme.layout(p.files, e)
		if err != nil {
			return nil, err
		}
		p.shelves = append(p.shelves, &shelf{site: newSite(cat, o, all, i), ctx: ctx, theme: o.Theme, layout: layout, dates: p.dates, emit: p.write})
	}
	return p, nil
}

// Start makes the style sheet, the scripts, and the index.
func (p *Writer) Start() error {
	if err := p.files.write(p.write); err != nil {
		return err
	}
	return p.each(func(s *shelf) error { return s.print(s.index()) })
}

// Platform makes the page of a platform.
func (p *Writer) Platform(g *decide.Guide) error {
	return p.each(func(s *shelf) error {
		s.remember(g)
		return s.print(s.platformPage(g))
	})
}

// Know keeps what pages of parts say of a platform, where its own page is not made.
func (p *Writer) Know(g *decide.Guide) {
	for _, s := range p.shelves {
		s.remember(g)
	}
}

// Part makes the page of a part that is offered at some places, with the rules about it and what it is
// offered against.
func (p *Writer) Part(part *model.Part, offers []offer.Offer, rules []offer.Rule, complaints []offer.Against) error {
	return p.each(func(s *shelf) error {
		s.rememberOffers(part, offers)
		return s.print(s.partPage(part, offers, rules, complaints))
	})
}

// Pictures makes every picture that a page may show. An error may be that one is not any more what
// was looked at.
func (p *Writer) Pictures() error { return p.shelves[0].emitPictures(p.write) }

// Finish makes what all pages together make: the pictures, the A to Z, what has changed,
// pages in the place of those that have gone and of those that never were, the search index, the
// feed, robots.txt and the sitemap. An error may be that a picture is not any more what was looked at.
func (p *Writer) Finish() error {
	main := p.shelves[0]
	if err := p.Pictures(); err != nil {
		return err
	}
	var pages []string
	err := p.each(func(s *shelf) error {
		err := s.finish()
		pages = append(pages, s.indexed...)
		return err
	})
	if err != nil {
		return err
	}
	if err := main.writeFeed(p.dates, p.write); err != nil {
		return err
	}
	slices.Sort(pages)
	return main.writeSitemap(pages, p.dates, p.write)
}

// Dates says, once all is finished, since when each page says what it says.
func (p *Writer) Dates() []address.Dated { return p.dates.all() }

// each does something for one language after another.
func (p *Writer) each(do func(*shelf) error) error {
	for _, s := range p.shelves {
		if err := do(s); err != nil {
			return err
		}
	}
	return nil
}

func (p *Writer) write(name string, data []byte) error {
	if err := p.emit(name, data); err != nil {
		return fmt.Errorf("writing %s: %w", name, err)
	}
	return nil
}
