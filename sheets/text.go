package sheets

import (
	"cmp"
	"encoding/xml"
	"strconv"
	"strings"
	"unicode/utf16"
	"unicode/utf8"
)

// words is text with what its runs say about being struck through.
type words struct {
	text    string
	struck  bool // some run is struck itself
	plain   bool // some run says that it is not
	inherit bool // some run looks like the cell
}

// strike tells whether the whole text is struck in a cell whose style is or is not.
func (w words) strike(cell bool) bool {
	return !w.plain && (w.struck || w.inherit) && (cell || !w.inherit)
}

// partly tells whether a part of the text is struck in such a cell, and a part is not.
func (w words) partly(cell bool) bool {
	return (w.struck || cell && w.inherit) && !w.strike(cell)
}

// gather puts words together from runs.
type gather struct {
	words
	built strings.Builder
}

// add appends a run; own tells whether it has a look of its own. Empty runs have none.
func (g *gather) add(text string, own, struck bool) {
	if text == "" {
		return
	}
	if g.built.Len() <= maxRaw {
		g.built.WriteString(text)
	}
	switch {
	case !own:
		g.inherit = true
	case struck:
		g.struck = true
	default:
		g.plain = true
	}
}

// rich reads a shared or inline string, just opened: <t>, or runs <r> of <t>. Phonetic
// runs <rPh> are how to pronounce it, not what it says.
func (m *markup) rich(name string) (words, error) {
	var g gather
	err := m.each(name, func(t xml.StartElement) error {
		switch local(t) {
		case "t":
			text, err := m.text("t")
			g.add(text, false, false)
			return err
		case "r":
			return m.run(&g)
		case "rPh", "phoneticPr", "extLst":
			return m.skip()
		}
		return m.unknown(t, name)
	})
	g.text = unescape(g.built.String())
	return g.words, err
}

// run reads one run of rich text. Its look comes before its text.
func (m *markup) run(g *gather) error {
	var own, struck bool
	return m.each("r", func(t xml.StartElement) error {
		switch local(t) {
		case "rPr":
			own = true
			return m.each("rPr", func(p xml.StartElement) (err error) {
				if local(p) == "strike" {
					struck, err = m.flag(p, "val", true)
				}
				return cmp.Or(err, m.skip())
			})
		case "t":
			s, err := m.text("t")
			g.add(s, own, struck)
			return err
		}
		return m.unknown(t, "r")
	})
}

// readStrings reads the shared strings; eager tells whether those of an ordinary form
// may be taken past the XML parser.
func (p *pack) readStrings(r *relation, eager bool) (all stock, err error) {
	if r == nil {
		return all, nil
	}
	f, err := p.follow(*r)
	if err != nil {
		return all, err
	}
	m, err := p.markup(f.Name, "", maxStrings)
	if err != nil {
		return all, err
	}
	if _, err := m.root("sst"); err != nil {
		return all, err
	}
	all.most = keptFloor + keptRatio*p.size
	full := func() error {
		if all.full() {
			return m.fault("it holds more texts than a file of this size needs (%d so far), as files do that are made to do harm", all.n)
		}
		return nil
	}
	var fast *fastStrings
	if eager && m.bypassed() {
		fast = &fastStrings{m: m, all: &all, size: leastBlock}
	}
	fast.run()
	if err := full(); err != nil {
		return all, err
	}
	err = m.each("sst", func(t xml.StartElement) error {
		switch local(t) {
		case "si":
			w, err := m.rich("si")
			all.add(w)
			fast.run()
			return cmp.Or(err, full())
		case "extLst":
			return m.skip()
		}
		return m.unknown(t, "sst")
	})
	if err != nil {
		return all, err
	}
	return all, m.end()
}

// unescape decodes _xHHHH_, by which workbooks store characters that XML cannot
// (ECMA-376 Part 1, 22.9.2.19, ST_Xstring). Half characters stay as they are stored.
func unescape(s string) string {
	at := strings.Index(s, "_x")
	if at < 0 {
		return s
	}
	var b strings.Builder
	for ; at >= 0; at = strings.Index(s, "_x") {
		b.WriteString(s[:at])
		s = s[at:]
		r, n := escaped(s)
		b.WriteRune(r)
		s = s[n:]
	}
	b.WriteString(s)
	return b.String()
}

// escaped decodes what s begins with: one character, its underscore if it is none.
func escaped(s string) (rune, int) {
	r, ok := unit(s)
	switch {
	case !ok:
		return '_', 1
	case !utf16.IsSurrogate(r):
		return r, 7
	}
	if low, ok := unit(s[7:]); ok {
		if both := utf16.DecodeRune(r, low); both != utf8.RuneError {
			return both, 14
		}
	}
	return '_', 1
}

// unit reads one _xHHHH_.
func unit(s string) (rune, bool) {
	if len(s) < 7 || s[0] != '_' || s[1] != 'x' || s[6] != '_' {
		return 0, false
	}
	n, err := strconv.ParseUint(s[2:6], 16, 16)
	return rune(n), err == nil
}

// tooLong tells whether a cell can hold the text.
func tooLong(s string) bool {
	if len(s) <= maxText {
		return false
	}
	n := 0
	for _, r := range s {
		if n += utf16.RuneLen(r); n > maxText {
			return true
		}
	}
	return false
}
