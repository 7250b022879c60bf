package patch

import "bytes"

// scanner goes through XML tag by tag, knowing where each stands. Parts are read strictly
// elsewhere, so it only has to find its way: what is not a tag is passed over.
type scanner struct {
	data  []byte
	at    int
	depth int // of open elements
}

type form uint8

const (
	opening form = iota
	closing
	single // <a/>
)

// tag stands at data[from:to]. Its depth is 1 for the root.
type tag struct {
	form     form
	from, to int
	depth    int
	name     []byte // as written, with its prefix
}

// next gives the next tag; false at the end, or where what comes is no XML.
func (s *scanner) next() (tag, bool) {
	for {
		i := bytes.IndexByte(s.data[s.at:], '<')
		if i < 0 {
			return tag{}, false
		}
		from := s.at + i
		rest := s.data[from:]
		end := -1
		switch {
		case bytes.HasPrefix(rest, []byte("<!--")):
			end = after(rest, 4, "-->")
		case bytes.HasPrefix(rest, []byte("<![CDATA[")):
			end = after(rest, 9, "]]>")
		case bytes.HasPrefix(rest, []byte("<?")):
			end = after(rest, 2, "?>")
		case bytes.HasPrefix(rest, []byte("<!")):
			return tag{}, false // a DOCTYPE, which no workbook has
		default:
			return s.tag(from)
		}
		if end < 0 {
			return tag{}, false
		}
		s.at = from + end
	}
}

func after(data []byte, from int, end string) int {
	i := bytes.Index(data[from:], []byte(end))
	if i < 0 {
		return -1
	}
	return from + i + len(end)
}

func (s *scanner) tag(from int) (tag, bool) {
	t := tag{from: from, to: tagEnd(s.data, from)}
	if t.to < 0 {
		return tag{}, false
	}
	s.at = t.to
	name := s.data[from+1 : t.to-1]
	switch {
	case len(name) > 0 && name[0] == '/':
		t.form, name = closing, name[1:]
		t.depth = s.depth
		s.depth--
	case len(name) > 0 && name[len(name)-1] == '/':
		t.form, t.depth = single, s.depth+1
	default:
		s.depth++
		t.depth = s.depth
	}
	if i := bytes.IndexAny(name, " \t\r\n/"); i >= 0 {
		name = name[:i]
	}
	t.name = name
	return t, true
}

// tagEnd gives the place behind a tag's closing bracket, which may stand in values as well.
func tagEnd(data []byte, from int) int {
	quote := byte(0)
	for i := from + 1; i < len(data); i++ {
		switch c := data[i]; {
		case quote != 0:
			if c == quote {
				quote = 0
			}
		case c == '"' || c == '\'':
			quote = c
		case c == '>':
			return i + 1
		}
	}
	return -1
}

// attribute is one of a tag; its value, still escaped, stands at data[from:to].
type attribute struct {
	name     []byte
	from, to int
}

// attributes calls visit for each attribute of a tag until it says stop.
func attributes(data []byte, t tag, visit func(attribute) bool) {
	i, end := t.from+1+len(t.name), t.to-1
	if t.form == closing {
		return
	}
	for i < end {
		for i < end && blank(data[i]) {
			i++
		}
		from := i
		for i < end && data[i] != '=' && data[i] != '/' && !blank(data[i]) {
			i++
		}
		name := data[from:i]
		for i < end && data[i] != '"' && data[i] != '\'' {
			if data[i] == '/' {
				return
			}
			i++
		}
		if i >= end {
			return
		}
		quote := data[i]
		n := bytes.IndexByte(data[i+1:end], quote)
		if n < 0 {
			return
		}
		if !visit(attribute{name, i + 1, i + 1 + n}) {
			return
		}
		i += n + 2
	}
}

func blank(c byte) bool { return c == ' ' || c == '\t' || c == '\r' || c == '\n' }

// attr finds an attribute by its name as written.
func attr(data []byte, t tag, name string) (a attribute, ok bool) {
	attributes(data, t, func(x attribute) bool {
		if string(x.name) == name {
			a, ok = x, true
		}
		return !ok
	})
	return a, ok
}

// value gives an attribute's value, "" where there is none, entities as they are written.
func value(data []byte, t tag, name string) string {
	a, ok := attr(data, t, name)
	if !ok {
		return ""
	}
	return string(data[a.from:a.to])
}

// local gives a name without its prefix.
func local(name []byte) []byte {
	if i := bytes.IndexByte(name, ':'); i >= 0 {
		return name[i+1:]
	}
	return name
}
