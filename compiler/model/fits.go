package model

import (
	"cmp"
	"slices"
	"strconv"
)

// Outcome is what is known of a position on one configuration.
type Outcome uint8

const (
	Gap Outcome = iota // no cell decides
	Fitted
	None     // nothing belongs there, on purpose
	Planned  // something will come
	Ask      // depends on what no trait records
	Conflict // deciding cells disagree
	Outcomes // how many there are
)

func (o Outcome) String() string {
	return [...]string{"gap", "fitted", "none", "planned", "ask", "conflict"}[o]
}

// Fits is what a fitment cell says: Fitted, None, Planned or Ask.
type Fits struct {
	Outcome      Outcome
	Alternatives []Alternative // in order of preference; empty with With
	With         *Position     // the item at this position supplies the place
	Text         string        // the reason, note, or what to find out
}

// Alternative is what is fitted together.
type Alternative []Item

// Item is a part with its quantity; 0 is the position's quantity.
type Item struct {
	Part     *Part
	Quantity int
}

// Count gives the item's quantity where the position takes q.
func (i Item) Count(q int) int {
	if i.Quantity == 0 {
		return q
	}
	return i.Quantity
}

// Filled gives the alternative with every quantity filled in and the quantities of
// one part added up, in the order in which parts are first named.
func (a Alternative) Filled(q int) Alternative {
	var out Alternative
	for _, item := range a {
		n := item.Count(q)
		if i := slices.IndexFunc(out, func(o Item) bool { return o.Part == item.Part }); i >= 0 {
			out[i].Quantity += n
		} else {
			out = append(out, Item{item.Part, n})
		}
	}
	return out
}

// Key is equal for two cells exactly if they agree where the position takes q.
func (f *Fits) Key(q int) string {
	switch {
	case f.Outcome != Fitted:
		return f.Outcome.String()
	case f.With != nil:
		return "with\x00" + f.With.Name
	}
	b := append(make([]byte, 0, 64), "part"...)
	for _, a := range f.Alternatives {
		items := a
		if len(a) > 1 {
			items = a.Filled(q)
			slices.SortFunc(items, func(x, y Item) int { return cmp.Compare(x.Part.Number, y.Part.Number) })
		}
		b = append(b, 0)
		for _, i := range items {
			b = strconv.AppendInt(append(b, 1), int64(i.Count(q)), 10)
			b = append(append(b, 2), i.Part.Number...)
		}
	}
	return string(b)
}

// Parts calls f for every part that the cell offers, kits and their contents
// included, each once, in the order of the cell.
func (f *Fits) Parts(yield func(*Part)) {
	var met parts
	for _, a := range f.Alternatives {
		for _, i := range a {
			i.Part.walk(&met, yield)
		}
	}
}

// Within calls f for the part itself and, for a kit, all it holds, each once.
func (p *Part) Within(f func(*Part)) { p.walk(&parts{}, f) }

func (p *Part) walk(met *parts, f func(*Part)) {
	if !met.add(p) {
		return
	}
	f(p)
	for _, c := range p.Contents {
		c.Part.walk(met, f)
	}
}

// parts is a set of parts: most cells hold one or two, for which a map is too much.
type parts struct {
	few  [4]*Part
	n    int
	many map[*Part]bool // those that found no room among the few
}

// add tells whether the part is new.
func (s *parts) add(p *Part) bool {
	if slices.Contains(s.few[:s.n], p) || s.many[p] {
		return false
	}
	if s.n < len(s.few) {
		s.few[s.n] = p
		s.n++
		return true
	}
	if s.many == nil {
		s.many = map[*Part]bool{}
	}
	s.many[p] = true
	return true
}
