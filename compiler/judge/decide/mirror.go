package decide

import (
	"math/bits"
	"slices"
	"strings"
	"unicode"

	"ferrule/compiler/model"
	"ferrule/compiler/space"
	"ferrule/schema/word"
)

// Mirror says what the traits and values of a catalogue are on a vehicle on which left
// and right have changed places. Names tell: a value, or a trait, whose name holds left or
// right as a word of its own (`Left tee`, `Right-hand`, LHD) becomes the one with the other
// word in its place.
type Mirror struct {
	traits []int   // by trait: the one that it becomes, itself where its name names no side
	values [][]int // by trait and value, Absent last: the value that it becomes there, -1 where none is declared
	names  []bool  // by trait: its name, or one of its values, names a side
}

// NewMirror goes through the traits of a catalogue.
func NewMirror(cat *model.Catalogue) *Mirror {
	m := &Mirror{}
	index := map[string]int{}
	for i, t := range cat.Traits {
		index[word.Fold(t.Name)] = i
	}
	for i, t := range cat.Traits {
		to, named := mirrored(t.Name, index)
		if t.Kind.OnLine() {
			to, named = i, false // a number says nothing of a side, whatever it is the number of
		}
		m.traits = append(m.traits, to)
		m.names = append(m.names, named)
		m.values = append(m.values, nil)
		m.mirrorValues(cat, i)
	}
	return m
}

// mirrorValues fills in what the values of a trait become.
func (m *Mirror) mirrorValues(cat *model.Catalogue, i int) {
	t, to := cat.Traits[i], m.traits[i]
	index := map[string]int{}
	if to >= 0 {
		for v, value := range cat.Traits[to].Values {
			index[word.Fold(value.Name)] = v
		}
	} else {
		m.traits[i] = i
	}
	for _, value := range t.Values {
		v, named := mirrored(value.Name, index)
		m.names[i] = m.names[i] || named
		m.values[i] = append(m.values[i], v)
	}
	absent := -1
	if to >= 0 {
		absent = cat.Traits[to].Absent()
	}
	m.values[i] = append(m.values[i], absent)
}

// mirrored gives the number of what a name becomes, -1 where nothing has that name, and
// whether the name names a side. What names both sides, and has no other name that
// exchanges them, stays what it is.
func mirrored(name string, index map[string]int) (int, bool) {
	swapped, left, right := exchange(name)
	if v, ok := index[word.Fold(swapped)]; ok {
		return v, left || right
	}
	if v, ok := index[word.Fold(name)]; ok && left && right {
		return v, false
	}
	return -1, left || right
}

// other gives the word for the other side, "" for a word that names none.
func other(w string) string {
	switch w {
	case "left":
		return "right"
	case "right":
		return "left"
	case "lh":
		return "rh"
	case "rh":
		return "lh"
	case "lhd":
		return "rhd"
	case "rhd":
		return "lhd"
	}
	return ""
}

// exchange puts the other side in place of each word that names one, and tells which
// sides there were.
func exchange(name string) (swapped string, left, right bool) {
	var out strings.Builder
	rest := word.Fold(name)
	for rest != "" {
		end := strings.IndexFunc(rest, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsNumber(r) })
		switch {
		case end < 0:
			end = len(rest)
		case end == 0:
			end = len(string([]rune(rest)[:1]))
		}
		w := rest[:end]
		if o := other(w); o != "" {
			left, right = left || w[0] == 'l', right || w[0] == 'r'
			w = o
		}
		out.WriteString(w)
		rest = rest[end:]
	}
	return out.String(), left, right
}

// mostWays is how many traits are tried with and without each other.
const mostWays = 4

// Ways gives the mirror that exchanges the sides in all traits that are asked, and then those
// that exchange them in some of these only, in more of them first. Two traits that become each
// other go together. Of more traits than mostWays, only the first mirror is given.
func (m *Mirror) Ways(asked Mention) []*Mirror {
	var groups [][]int
	for i := range m.traits {
		if !m.Swaps(i, asked) {
			continue
		}
		if k := slices.IndexFunc(groups, func(g []int) bool { return slices.Contains(g, m.traits[i]) }); k >= 0 {
			groups[k] = append(groups[k], i)
		} else {
			groups = append(groups, []int{i})
		}
	}
	out := []*Mirror{m}
	if len(groups) > mostWays {
		return out
	}
	for left := 1; left < len(groups); left++ {
		for set := 1; set < 1<<len(groups); set++ {
			if bits.OnesCount(uint(set)) == left {
				out = append(out, m.without(groups, set))
			}
		}
	}
	return out
}

// without is a mirror that leaves the groups of a set as they are.
func (m *Mirror) without(groups [][]int, set int) *Mirror {
	out := *m
	out.names = slices.Clone(m.names)
	for k, g := range groups {
		for _, i := range g {
			out.names[i] = m.names[i] && set>>k&1 == 0
		}
	}
	return &out
}

// Seen gives a position as the mirror images of the platform's vehicles have it: a
// configuration is in one of its regions where its mirror image is in that region of the
// position. Only what is asked counts, years included: a mirror image is any vehicle that
// exists and is that in all that is asked, since nothing else can change what is said. It
// runs inside Try.
func (m *Mirror) Seen(p *Platform, position *model.Position, asked Mention) *Mount {
	q := *p
	q.frame = m.frame(p, asked)
	var boxes []space.Box
	for _, b := range p.vehicles {
		if !p.Meets(space.Full, b) {
			continue
		}
		in := asked.only(b)
		for t := range in {
			if asked[t] && in[t] == nil {
				in[t] = space.All(p.Size(t)) // some of it may have no mirror image
			}
		}
		boxes = append(boxes, q.frame.place(in))
	}
	q.All = p.UnionBoxes(boxes)
	q.cells = make([][]*Cell, len(p.cells))
	for _, c := range p.cells[position.Index] {
		q.cells[position.Index] = append(q.cells[position.Index], &Cell{c.FitCell, q.frame.place(c.Box)})
	}
	return NewMount(&q, position)
}

// Image gives a box that holds the mirror images of the vehicles that meet a condition. What
// is not asked may be anything.
func (m *Mirror) Image(p *Platform, w *model.When, asked Mention) space.Box {
	return m.frame(p, asked).place(asked.only(p.own(w)))
}

// Swaps tells whether a trait is mirrored: it names a side, and it or the one that it
// becomes is asked.
func (m *Mirror) Swaps(i int, asked Mention) bool {
	return m.names[i] && (asked[i+1] || asked[m.traits[i]+1])
}

func (m *Mirror) frame(p *Platform, asked Mention) *Frame {
	f := &Frame{}
	for y := range max(1, len(p.Model.Years)) {
		f.Years = append(f.Years, y)
	}
	for i, t := range p.Cat.Traits {
		axis := Axis{Trait: i + 1}
		if m.Swaps(i, asked) {
			axis.Trait, axis.Values = m.traits[i]+1, m.values[i]
		} else {
			for v := range t.Absent() + 1 {
				axis.Values = append(axis.Values, v)
			}
		}
		f.Axes = append(f.Axes, axis)
	}
	return f
}
