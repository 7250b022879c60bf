package layout

import (
	"strings"

	"ferrule/sheets"
)

// outs is what a text below across says: a record for each.
type outs struct {
	all []out
	bad string // a mark or sign that is not declared
	by  *Row   // of two marks that contradict each other, one
}

// out is one record that a cell makes.
type out struct {
	text  string // under the cells' column; "" where the part of the row, or none
	own   bool   // text is what the cell itself holds
	named bool   // the part of the row is meant
	signs []*sign
	key   int32
	sign  *sign // the mark that means the part; nil for none
}

// outsOf gives what a cell of the grid says. Texts that cells share are read once.
func (g *reading) outsOf(it *item) *outs {
	if n := int(it.Shared); n > 0 {
		if g.byShared == nil {
			g.byShared = make([]*outs, g.r.texts+1)
		}
		if g.byShared[n] == nil {
			g.byShared[n] = g.read(it)
		}
		return g.byShared[n]
	}
	if it.Kind == sheets.Text || len(g.signs) > 0 {
		if o := g.outs[it.Text]; o != nil {
			return o
		}
	}
	o := g.read(it)
	if len(g.outs) < 1<<16 {
		g.outs[it.Text] = o
	}
	return o
}

// read reads what a cell of the grid says.
func (g *reading) read(it *item) *outs {
	v := g.saidBelow(it.Text)
	changed := v != it.Text
	o := &outs{}
	if strings.TrimSpace(v) == "" {
		return o
	}
	pieces, cut := g.cellPieces(v)
	for _, p := range pieces {
		r := g.readPiece(p, o)
		if r == nil {
			continue
		}
		r.own = !changed && !cut && r.text == strings.TrimSpace(it.Text)
		o.all = append(o.all, *r)
	}
	return o
}

// readPiece reads one record's piece of a cell; nil where it says nothing.
func (g *reading) readPiece(p string, o *outs) *out {
	out := &out{}
	var ors []string
	for _, alt := range g.parts(p, "or") {
		var ands []string
		for _, one := range g.parts(alt, "+") {
			said := g.parse(g.saidBelow(one))
			if said.bad != "" {
				o.bad = said.bad
				return nil
			}
			if t, ok := g.means(said, out, o); ok {
				ands = append(ands, t)
			}
		}
		if len(ands) > 0 {
			ors = append(ors, strings.Join(ands, " + "))
		}
	}
	if len(ors) == 0 && !out.named {
		return nil
	}
	out.text = strings.Join(ors, " or ")
	if out.text == partText {
		out.text = ""
	}
	g.weigh(out)
	return out
}

// partText stands for the number of the row's part in a cell until that is known.
const partText = "\x00"

// means gives what a mark or a value says under the cells' column, and takes note of what its
// signs say beside; false where that is nothing.
func (g *reading) means(said parsed, to *out, o *outs) (string, bool) {
	text, nothing := said.value, false
	for i, s := range said.signs {
		g.met(s.row, true)
		nothing = nothing || s.nothing
		to.signs = append(to.signs, s)
		switch {
		case s.fits == "":
		case text != "" && text != s.fits:
			o.by = s.row
		default:
			text = s.fits
		}
		if i == 0 {
			to.sign = s
		}
	}
	if nothing {
		return "", false
	}
	if text != "" {
		return text, true
	}
	to.named = true
	return partText, true
}
