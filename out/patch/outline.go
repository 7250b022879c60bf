package patch

// outline knows where the children of a part's root stand, and where one would that is not there.
type outline struct {
	*part
	order    []string
	children []child
	last     int // where the root ends
}

// child is one of them. Of alternatives (mc:AlternateContent) the first that the schema names counts.
type child struct {
	start tag
	rank  int
	end   int // of its content; -1 where it is a single tag
}

// outlined goes through a part once, and shows every tag below the children to visit, with the name of
// the child, which is "" within alternatives.
func outlined(x *part, order []string, visit func(within string, t tag)) *outline {
	o := &outline{part: x, order: order, last: len(x.old)}
	s := scanner{data: x.old}
	for t, ok := s.next(); ok; t, ok = s.next() {
		switch {
		case t.depth == 1 && t.form == closing:
			o.last = t.from
		case t.depth == 2 && t.form == closing:
			o.children[len(o.children)-1].end = t.from
		case t.depth == 2:
			o.children = append(o.children, child{t, rank(order, x.child(t)), -1})
		case t.depth > 2:
			c := &o.children[len(o.children)-1]
			if t.depth == 4 && c.rank < 0 && string(local(c.start.name)) == "AlternateContent" {
				c.rank = rank(order, x.child(t))
			}
			visit(x.child(c.start), t)
		}
	}
	return o
}

// find gives the child of that name, nil where there is none.
func (o *outline) find(name string) *child {
	for i := range o.children {
		if o.is(o.children[i].start, name) {
			return &o.children[i]
		}
	}
	return nil
}

// place is where a child of that name would stand.
func (o *outline) place(name string) int {
	n := rank(o.order, name)
	for _, c := range o.children {
		if c.rank > n {
			return c.start.from
		}
	}
	return o.last
}

// put puts items into the child of that name, behind those that it has; a child that is not there is made
// with them. Items have their prefix.
func (o *outline) put(name, items string) {
	switch c := o.find(name); {
	case c == nil:
		o.insert(o.place(name), "<"+o.prefix+name+">"+items+"</"+o.prefix+name+">")
	case c.end < 0:
		o.open(c.start, items)
	default:
		o.insert(c.end, items)
	}
}
