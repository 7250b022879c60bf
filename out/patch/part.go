package patch

import (
	"bytes"
	"cmp"
	"slices"
	"unicode/utf8"
)

// part is a part of the package with what changes of it.
type part struct {
	name   string
	old    []byte // nil where the part is new
	cuts   []cut
	prefix string // of the root's name, with its colon
	space  string // the namespace of the root
	fresh  []byte // of a new part
	made   bool   // old is where a new part began from
	tail   string // tags to put behind all others of the root
}

// cut says what stands in place of old[from:to]. Those within a tag change its attributes; all others
// hold whole tags.
type cut struct {
	from, to int
	with     string
	within   bool
}

// edit gives a part to be changed.
func (p *patching) edit(name string) (*part, error) {
	if have := p.parts[name]; have != nil {
		return have, nil
	}
	data, err := p.book.Content(name, maxPart)
	if err != nil {
		return nil, err
	}
	if !utf8.Valid(data) {
		return nil, refuse("its part %s is not stored in UTF-8", name)
	}
	out := &part{name: name, old: data}
	if err := out.root(); err != nil {
		return nil, err
	}
	p.keep(out)
	return out, nil
}

// create adds a part that is not there yet.
func (p *patching) create(name string, data string) {
	p.keep(&part{name: name, fresh: []byte(data)})
}

func (p *patching) keep(x *part) {
	p.parts[x.name] = x
	p.order = append(p.order, x.name)
}

// root finds the prefix and the namespace of the root.
func (x *part) root() error {
	s := scanner{data: x.old}
	t, ok := s.next()
	if !ok || t.form == closing {
		return refuse("its part %s is no XML that can be edited", x.name)
	}
	by := "xmlns"
	if i := bytes.IndexByte(t.name, ':'); i >= 0 {
		x.prefix = string(t.name[:i+1])
		by += ":" + string(t.name[:i])
	}
	x.space = value(x.old, t, by)
	return nil
}

// is tells whether a tag is of the root's namespace and has the name.
func (x *part) is(t tag, name string) bool {
	return len(t.name) == len(x.prefix)+len(name) && string(t.name[:len(x.prefix)]) == x.prefix && string(t.name[len(x.prefix):]) == name
}

// child gives the name of a tag of the root's namespace, "" for others.
func (x *part) child(t tag) string {
	name, ok := bytes.CutPrefix(t.name, []byte(x.prefix))
	if !ok || bytes.IndexByte(name, ':') >= 0 {
		return ""
	}
	return string(name)
}

func (x *part) cut(from, to int, with string) {
	x.cuts = append(x.cuts, cut{from: from, to: to, with: with})
}

// insert puts whole tags at a place.
func (x *part) insert(at int, with string) {
	if with != "" {
		x.cut(at, at, with)
	}
}

// set gives a tag an attribute, whatever it had.
func (x *part) set(t tag, name, to string) {
	if a, ok := attr(x.old, t, name); ok {
		if string(x.old[a.from:a.to]) != to {
			x.cuts = append(x.cuts, cut{a.from, a.to, to, true})
		}
		return
	}
	end := t.to - 1
	if t.form == single {
		end--
	}
	x.cuts = append(x.cuts, cut{end, end, " " + name + `="` + to + `"`, true})
}

// open makes a start of a tag without content, and puts content and an end behind it.
func (x *part) open(t tag, content string) {
	x.cuts = append(x.cuts, cut{t.to - 2, t.to - 1, "", true})
	x.insert(t.to, content+"</"+string(t.name)+">")
}

// changes tells whether the part will be another than it was.
func (x *part) changes() bool { return x.made || x.old == nil || len(x.cuts) > 0 || x.tail != "" }

// result gives the part as it will be.
func (x *part) result() []byte {
	if x.old == nil {
		return x.fresh
	}
	x.close()
	slices.SortStableFunc(x.cuts, func(a, b cut) int { return cmp.Or(cmp.Compare(a.from, b.from), cmp.Compare(a.to, b.to)) })
	out := make([]byte, 0, len(x.old)+1024)
	at := 0
	for _, c := range x.cuts {
		if c.from < at {
			panic("patch: result: two changes of " + x.name + " lie over each other")
		}
		out = append(append(out, x.old[at:c.from]...), c.with...)
		at = c.to
	}
	return append(out, x.old[at:]...)
}

// close puts the tail where it belongs.
func (x *part) close() {
	s := scanner{data: x.old}
	for t, ok := s.next(); ok && x.tail != ""; t, ok = s.next() {
		switch {
		case t.depth == 1 && t.form == single:
			x.open(t, x.tail)
			x.tail = ""
		case t.depth == 1 && t.form == closing:
			x.insert(t.from, x.tail)
			x.tail = ""
		}
	}
}
