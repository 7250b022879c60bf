package sheets

import (
	"bufio"
	"bytes"
	"encoding/binary"
	"encoding/xml"
	"errors"
	"io"
	"strings"
)

// markup reads one part as XML, strictly: one root element, complete, without a
// DOCTYPE, only the five entities, UTF-8 or UTF-16, nothing nested or long beyond
// measure. Comments and processing instructions are left out, and so is all that markup
// compatibility keeps from a reader like this one.
type markup struct {
	spot
	dec   *xml.Decoder
	from  *source
	depth int
	began bool
	// unprefixed names below the root are of spreadsheets
	unprefixed bool
	lines      int // line breaks that were taken past the parser
	work       meter
	compat
}

var errLong = errors.New("one tag or text is too long")

// source hands single bytes to the parser and bounds how many it takes for one token.
type source struct {
	*intake
	wide *wide // turns UTF-16 into UTF-8; nil where the part is in UTF-8

	taken     int
	last, now byte // the last two bytes, the later one in now
}

func (s *source) ReadByte() (b byte, err error) {
	if s.taken++; s.taken > maxToken {
		return 0, errLong
	}
	if s.wide != nil {
		b, err = s.wide.ReadByte()
	} else {
		b, err = s.intake.ReadByte()
	}
	s.last, s.now = s.now, b
	return b, err
}

// Read is there because xml.NewDecoder asks for it; the parser reads bytes.
func (s *source) Read(p []byte) (int, error) {
	if len(p) == 0 {
		return 0, nil
	}
	b, err := s.ReadByte()
	if err != nil {
		return 0, err
	}
	p[0] = b
	return 1, nil
}

// newMarkup looks for a byte order mark and begins reading.
func newMarkup(r io.Reader, where spot) *markup {
	in := &intake{from: r}
	m := &markup{spot: where, from: &source{intake: in}}
	switch head := in.peek(3); {
	case bytes.HasPrefix(head, []byte{0xef, 0xbb, 0xbf}):
		in.now = in.now[3:]
	case bytes.HasPrefix(head, []byte{0xff, 0xfe}):
		in.now = in.now[2:]
		m.from.wide = &wide{from: bufio.NewReader(in), order: binary.LittleEndian}
	case bytes.HasPrefix(head, []byte{0xfe, 0xff}):
		in.now = in.now[2:]
		m.from.wide = &wide{from: bufio.NewReader(in), order: binary.BigEndian}
	}
	m.dec = xml.NewDecoder(m.from)
	m.dec.CharsetReader = m.charset
	return m
}

// charset is asked for every declared encoding but UTF-8.
func (m *markup) charset(label string, in io.Reader) (io.Reader, error) {
	low := strings.ToLower(label)
	wide := m.from.wide != nil
	if wide && strings.HasPrefix(low, "utf-16") || !wide && low == "us-ascii" {
		return in, nil // ASCII is UTF-8; other bytes are refused by the parser
	}
	return nil, m.fault("its text is stored in the encoding %q; workbooks use UTF-8 or UTF-16", label)
}

// next gives a StartElement, an EndElement or CharData; io.EOF where the part ends
// as it should; else a *Fault.
func (m *markup) next() (xml.Token, error) {
	for {
		m.from.taken = 0
		tok, err := m.dec.Token()
		if err != nil {
			return nil, m.ended(err)
		}
		if !m.work.add(m.from.taken) {
			return nil, m.fault("it holds far more tags than its size in the file allows, as files do that are made to do harm")
		}
		seen := false
		switch t := tok.(type) {
		case xml.Directive:
			return nil, m.fault("its XML has a DOCTYPE, which workbooks never need")
		case xml.StartElement:
			if err = m.opened(t); err == nil {
				seen, err = m.compat.begin(m, t)
			}
		case xml.EndElement:
			m.depth--
			seen, err = m.compat.end(m)
		case xml.CharData:
			if m.depth > 0 {
				seen, err = m.compat.text(m, t)
			} else if !blank(t) {
				err = m.damaged("text stands outside its XML")
			}
		}
		if seen || err != nil {
			return tok, err
		}
	}
}

func (m *markup) opened(t xml.StartElement) error {
	if m.depth++; m.depth > maxDepth {
		return m.fault("its XML is nested more than %d deep", maxDepth)
	}
	if m.depth == 1 && m.began {
		return m.damaged("its XML has two roots")
	}
	m.began = true
	if len(t.Attr) > maxAttrs {
		return m.fault("a tag <%s> has more than %d attributes", t.Name.Local, maxAttrs)
	}
	if len(t.Name.Local) > maxName || len(t.Name.Space) > maxName {
		return m.fault("a tag in it has a name of more than %d bytes", maxName)
	}
	if name, twice := repeated(t.Attr); twice {
		return m.damaged("a tag <%s> has the attribute %s twice", t.Name.Local, name.Local)
	}
	return nil
}

// repeated finds an attribute that stands twice.
func repeated(all []xml.Attr) (xml.Name, bool) {
	const few = 16 // with so many comparing all with all is fastest
	if len(all) > few {
		seen := make(map[xml.Name]bool, len(all))
		for _, a := range all {
			if seen[a.Name] {
				return a.Name, true
			}
			seen[a.Name] = true
		}
		return xml.Name{}, false
	}
	for i, a := range all {
		for _, b := range all[:i] {
			if a.Name == b.Name {
				return a.Name, true
			}
		}
	}
	return xml.Name{}, false
}

// ended says what an error of the parser means.
func (m *markup) ended(err error) error {
	var f *Fault
	var syntax *xml.SyntaxError
	switch {
	case errors.As(err, &f):
		return f
	case errors.Is(err, io.EOF) && m.began:
		return io.EOF
	case errors.Is(err, io.EOF):
		return m.damaged("it is empty")
	case errors.Is(err, errLong):
		return m.fault("it has a tag or a text of more than %d MiB", maxToken>>20)
	case errors.As(err, &syntax):
		return m.damaged("it is not complete and correct XML (line %d: %s)", syntax.Line+m.lines, syntax.Msg)
	}
	return m.damaged("it is not complete and correct XML (%v)", err)
}

// root reads the first tag, which must be of the given name in one of the spreadsheet
// namespaces.
func (m *markup) root(name string) (xml.StartElement, error) {
	for {
		tok, err := m.next()
		if err != nil {
			return xml.StartElement{}, err
		}
		if t, ok := tok.(xml.StartElement); ok {
			if t.Name.Local != name || !ours(t.Name.Space) {
				return t, m.fault("it should begin with <%s> and begins with <%s>", name, t.Name.Local)
			}
			space, _ := attr(t, "xmlns")
			m.unprefixed = ours(space)
			return t, nil
		}
	}
}

// walk calls visit for every spreadsheet element with the names of the elements that
// it stands in, its own last: workbook/sheets/sheet. It checks the root and the end.
// Elements of other namespaces have the name "?", so that nothing inside them is
// taken for what it is not.
func (m *markup) walk(root string, visit func(path string, t xml.StartElement) error) error {
	top, err := m.root(root)
	if err != nil {
		return err
	}
	if err := visit(root, top); err != nil {
		return err
	}
	path := []string{root}
	tok, err := m.next()
	for ; err == nil; tok, err = m.next() {
		switch t := tok.(type) {
		case xml.StartElement:
			name := local(t)
			if name == "" {
				name = "?"
			}
			path = append(path, path[len(path)-1]+"/"+name)
			if err := visit(path[len(path)-1], t); err != nil {
				return err
			}
		case xml.EndElement:
			path = path[:len(path)-1]
		}
	}
	return m.done(err)
}

// end reads on after the root's end: nothing may follow, and the checksum must agree.
func (m *markup) end() error {
	_, err := m.next()
	return m.done(err)
}

// skip leaves out the rest of the element just opened.
func (m *markup) skip() error {
	for to := m.depth - 1; m.depth > to; {
		if _, err := m.next(); err != nil {
			return err
		}
	}
	return nil
}

// bypassed tells whether the bytes behind the tag just read can be taken past the parser:
// whether they are UTF-8, unprefixed names are of spreadsheets, and the tag has an end
// of its own.
func (m *markup) bypassed() bool { return m.unprefixed && m.from.wide == nil && m.from.last != '/' }

// text gives the text of the element just opened, which may hold no other elements.
// Beyond maxRaw bytes it only counts: what it gives is then longer than any cell's text.
func (m *markup) text(name string) (string, error) {
	var b strings.Builder
	for {
		tok, err := m.next()
		if err != nil {
			return "", err
		}
		switch t := tok.(type) {
		case xml.StartElement:
			return "", m.fault("a tag <%s> stands inside <%s>, where only text can be", t.Name.Local, name)
		case xml.EndElement:
			return b.String(), nil
		case xml.CharData:
			if b.Len() <= maxRaw {
				b.Write(t)
			}
		}
	}
}

// each calls do for every element inside the one just opened; do must read it to its
// end. Text between the elements must be blank.
func (m *markup) each(name string, do func(xml.StartElement) error) error {
	for {
		tok, err := m.next()
		if err != nil {
			return err
		}
		switch t := tok.(type) {
		case xml.EndElement:
			return nil
		case xml.CharData:
			if !blank(t) {
				return m.damaged("text stands loose inside <%s>", name)
			}
		case xml.StartElement:
			if err := do(t); err != nil {
				return err
			}
		}
	}
}

// unknown is about an element that cannot be left out without knowing what it holds.
func (m *markup) unknown(t xml.StartElement, in string) *Fault {
	return m.fault("a tag <%s> stands inside <%s>, where it is not known here", t.Name.Local, in)
}

// done turns the io.EOF that ends a loop over next into nil.
func (m *markup) done(err error) error {
	if errors.Is(err, io.EOF) {
		return nil
	}
	return err
}
