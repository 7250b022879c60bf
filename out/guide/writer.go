package guide

import (
	"context"
	"fmt"
	"html/template"
	"slices"
	"sync"

	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/parallel"
	"ferrule/out/address"
	"ferrule/out/offer"
)

// Writer makes the pages of one catalogue: Start, then Platform for each platform, then
// Part for each part, then Finish. Platform and Part may be called by several goroutines,
// which then call emit as well.
type Writer struct {
	*site
	ctx     context.Context
	theme   *Theme
	files   assets
	layout  *template.Template
	emit    Emit
	presses sync.Pool

	mu      sync.Mutex
	dates   *dates
	indexed []string // pages that a sitemap names
}

// New prepares the pages of a catalogue. An error says that the theme is at fault. With the
// context ends what templates of a theme make long.
func New(ctx context.Context, cat *model.Catalogue, o Options, emit Emit) (*Writer, error) {
	files := o.Theme.assets(o.Fragment)
	layout, err := o.Theme.layout(files)
	if err != nil {
		return nil, err
	}
	return &Writer{site: newSite(cat, o), ctx: ctx, theme: o.Theme, files: files, layout: layout, emit: emit, dates: newDates(o.Today, o.Dated)}, nil
}

// Start makes the style sheet, the scripts and the index.
func (p *Writer) Start() error {
	if err := p.files.write(p.write); err != nil {
		return err
	}
	return p.print(p.index())
}

// Platform makes the page of a platform.
func (p *Writer) Platform(g *decide.Guide) error {
	p.remember(g)
	return p.print(p.platformPage(g))
}

// Part makes the page of a part that is offered at some places, with the rules about it.
func (p *Writer) Part(part *model.Part, offers []offer.Offer, rules []offer.Rule) error {
	p.rememberOffers(part, offers)
	return p.print(p.partPage(part, offers, rules))
}

// Finish makes what all pages together make: the pictures, the A to Z, what has changed,
// pages in the place of those that have gone and of those that never were, the search index, the
// feed, robots.txt and the sitemap. An error may be that a picture is not any more what was looked at.
func (p *Writer) Finish() error {
	if err := p.emitPictures(p.write); err != nil {
		return err
	}
	if err := p.writeAToZ(p.print); err != nil {
		return err
	}
	if err := p.writeChanges(p.print); err != nil {
		return err
	}
	if err := p.writeGone(p.print); err != nil {
		return err
	}
	if err := p.writeIndex(p.write); err != nil {
		return err
	}
	if err := p.print(p.missing()); err != nil {
		return err
	}
	if err := p.writeFeed(p.dates, p.write); err != nil {
		return err
	}
	slices.Sort(p.indexed)
	return p.writeSitemap(p.indexed, p.dates, p.write)
}

// Dates says, once all is finished, since when each page says what it says.
func (p *Writer) Dates() []address.Dated { return p.dates.all() }

// print lays a page out.
func (p *Writer) print(page page) error {
	f := page.head()
	press, ok := p.presses.Get().(*press)
	if !ok {
		var err error
		if press, err = newPress(p.layout, p.theme != nil); err != nil {
			return p.theme.fault(err)
		}
	}
	text, err := p.execute(press, page)
	if err != nil {
		return err // and a template that has not come to its end may go on writing
	}
	defer p.presses.Put(press)
	p.mu.Lock()
	if !f.NoIndex {
		p.indexed = append(p.indexed, f.path)
		p.dates.take(f.path, content(text))
	}
	p.mu.Unlock()
	return p.write(f.path, text)
}

// execute lays a page out by its template. Without a theme that cannot fail; with one it may
// take as long as the steps that it has.
func (p *Writer) execute(press *press, page page) (text []byte, err error) {
	if p.theme == nil {
		if text, err = press.print(page); err != nil {
			panic("guide: a template does not fit its page: " + err.Error())
		}
		return text, nil
	}
	if stopped := parallel.Until(p.ctx, func() { text, err = press.print(page) }); stopped != nil {
		return nil, stopped
	}
	return text, p.theme.fault(err)
}

func (p *Writer) write(name string, data []byte) error {
	if err := p.emit(name, data); err != nil {
		return fmt.Errorf("writing %s: %w", name, err)
	}
	return nil
}
