package picture

import (
	"errors"
	"fmt"
	"strings"
)

// maxDrawn bounds the elements that a browser is to draw, each as often as it is drawn. A
// drawing of 2 MB has some 50,000.
const maxDrawn = 200_000

// maxAsked bounds how often it is asked whether a rule means an element.
const maxAsked = 50_000_000

// weigh counts what is drawn, through all that parts of the drawing draw again: a few
// lines can ask for thousands of millions.
func (d *sketch) weigh() error {
	asked := 0
	for _, r := range d.sheets {
		asked += len(r.selectors)
	}
	if asked > maxAsked/d.parts {
		return errors.New("its styles have too many rules for so many elements; save it as plain SVG")
	}
	if err := d.weighTiles(); err != nil {
		return err
	}
	n, err := d.drawn(d.root)
	if err == nil && n > maxDrawn {
		err = tooMuch()
	}
	return err
}

func tooMuch() error {
	return fmt.Errorf("it draws its parts over and over, more than %d in all; leave repeated parts out", maxDrawn)
}

// states of weighing
const (
	fresh uint8 = iota
	weighing
	weighed
)

// drawn counts the elements that are drawn with a part, up to a little more than may be.
func (d *sketch) drawn(p *part) (int, error) {
	switch p.state {
	case weighing:
		return 0, errors.New("a part of it is drawn within itself")
	case weighed:
		return p.weight, nil
	}
	p.state = weighing
	n := 1
	for _, in := range p.inside {
		w, err := d.drawn(in)
		if err != nil {
			return 0, err
		}
		n = min(n+w, maxDrawn+1)
	}
	for _, r := range d.refsOf(p) {
		to := d.named[r.id]
		if to == nil || strings.HasSuffix(to.name, "Gradient") { // which draws nothing itself
			continue
		}
		w, err := d.drawn(to)
		if err != nil {
			return 0, err
		}
		if r.marker {
			w = min(w, maxDrawn+1) * max(1, p.corners)
		}
		n = min(n+w, maxDrawn+1)
	}
	p.state, p.weight = weighed, n
	return n, nil
}

// refsOf gives what a part draws besides itself, by its attributes and by style sheets.
func (d *sketch) refsOf(p *part) []ref {
	out := p.refs
	for _, r := range d.sheets {
		if len(r.refs) > 0 && d.meant(r, p) {
			out = append(out[:len(out):len(out)], r.refs...)
		}
	}
	return out
}

func (d *sketch) meant(r rule, p *part) bool {
	for _, s := range r.selectors {
		if s.means(p) {
			return true
		}
	}
	return false
}
