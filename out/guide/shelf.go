package guide

import (
	"context"
	"html/template"
	"sync"

	"ferrule/compiler/parallel"
)

// shelf is the pages of one language.
type shelf struct {
	*site
	ctx     context.Context
	theme   *Theme
	layout  *template.Template
	dates   *dates
	emit    Emit
	presses sync.Pool

	mu      sync.Mutex
	indexed []string // pages that a sitemap names
}

// finish makes what all pages of the language together make.
func (p *shelf) finish() error {
	if err := p.writeAToZ(p.print); err != nil {
		return err
	}
	if err := p.writeChanges(p.print); err != nil {
		return err
	}
	if err := p.writeGone(p.print); err != nil {
		return err
	}
	if err := p.print(p.missing()); err != nil {
		return err
	}
	return p.writeIndex(p.write)
}

// write emits a file of the language.
func (p *shelf) write(name string, data []byte) error { return p.emit(p.folder+name, data) }

// print lays a page out.
func (p *shelf) print(page page) error {
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
	if !f.NoIndex {
		p.mu.Lock()
		p.indexed = append(p.indexed, f.path)
		p.mu.Unlock()
		p.dates.take(f.path, content(text))
	}
	return p.emit(f.path, text)
}

// execute lays a page out by its template. Without a theme that cannot fail; with one it may
// take as long as the steps that it has.
func (p *shelf) execute(press *press, page page) (text []byte, err error) {
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
