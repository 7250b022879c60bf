package sheets

import (
	"bytes"
	"unicode/utf8"
)

// What rich texts are made of is scanned here without the XML parser, where it is written as
// spreadsheet programs write it. Whatever else there is, is odd and left to the parser, whose
// rules are these: markup.rich and markup.run.

// rich scans a text of runs after its "<si>", up to and with "</si>".
func (b *block) rich(i int) (words, int) {
	var g gather
	for i != odd {
		i = skipSpace(b.data, i)
		switch {
		case begins(b.data, i, "</si>"):
			g.text = unescape(g.built.String())
			return g.words, i + len("</si>")
		case begins(b.data, i, "<r>"):
			i = b.run(i+len("<r>"), &g)
		case begins(b.data, i, "<rPh"):
			i = b.phonetics(i + len("<rPh"))
		case begins(b.data, i, "<phoneticPr"):
			i = b.lone(i+len("<phoneticPr"), nil)
		case begins(b.data, i, "<t"):
			i = b.piece(i, &g, false, false)
		default:
			i = odd
		}
	}
	return words{}, odd
}

// run scans a run after its "<r>": its look, and its text.
func (b *block) run(i int, g *gather) int {
	own, struck := false, false
	i = skipSpace(b.data, i)
	switch {
	case begins(b.data, i, "<rPr/>"):
		own, i = true, i+len("<rPr/>")
	case begins(b.data, i, "<rPr>"):
		own = true
		if struck, i = b.look(i + len("<rPr>")); i == odd {
			return odd
		}
	}
	if i = skipSpace(b.data, i); !begins(b.data, i, "<t") {
		return odd
	}
	if i = b.piece(i, g, own, struck); i == odd {
		return odd
	}
	if i = skipSpace(b.data, i); !begins(b.data, i, "</r>") {
		return odd
	}
	return i + len("</r>")
}

// piece scans a <t> and adds its text.
func (b *block) piece(i int, g *gather, own, struck bool) int {
	text, i, ok := b.element(i+len("<t"), "</t>", nil)
	if !ok {
		return odd
	}
	g.add(text, own, struck)
	return i
}

// look scans the look of a run, elements without content, after its "<rPr>".
func (b *block) look(i int) (struck bool, next int) {
	for {
		i = skipSpace(b.data, i)
		if begins(b.data, i, "</rPr>") {
			return struck, i + len("</rPr>")
		}
		if b.data[i] != '<' {
			return false, odd
		}
		i++
		from := i
		for c := b.data[i] | 0x20; c >= 'a' && c <= 'z'; c = b.data[i] | 0x20 {
			i++
		}
		name := b.data[from:i]
		if len(name) == 0 {
			return false, odd
		}
		var is *bool
		if string(name) == "strike" {
			struck, is = true, &struck
		}
		if i = b.lone(i, is); i == odd {
			return false, odd
		}
	}
}

// phonetics leaves out how a text is pronounced, after its "<rPh".
func (b *block) phonetics(i int) int {
	i, closed := b.attributes(i, nil)
	switch {
	case i == odd || closed:
		return i
	case !begins(b.data, i, "<t"):
		return odd
	}
	_, i, ok := b.element(i+len("<t"), "</t>", nil)
	if !ok || !begins(b.data, i, "</rPh>") {
		return odd
	}
	return i + len("</rPh>")
}

// lone scans the attributes and the end of an element without content; is takes its
// attribute val.
func (b *block) lone(i int, is *bool) int {
	i, closed := b.attributes(i, is)
	if !closed {
		return odd
	}
	return i
}

// attributes scans attributes of any name, each once and of no namespace's, and the end of the tag;
// closed tells whether that ends the element, too.
func (b *block) attributes(i int, is *bool) (next int, closed bool) {
	var names [8][]byte
	for n := 0; ; n++ {
		i = skipSpace(b.data, i)
		switch {
		case b.data[i] == '>':
			return i + 1, false
		case begins(b.data, i, "/>"):
			return i + 2, true
		case n == len(names) || b.data[i-1] > ' ':
			return odd, false
		}
		name, value, next := quoted(b.data[:b.size], i)
		if next == odd {
			return odd, false
		}
		for _, other := range names[:n] {
			if bytes.Equal(name, other) {
				return odd, false
			}
		}
		names[n], i = name, next
		if is != nil && string(name) == "val" {
			var ok bool
			if *is, ok = truth(string(value)); !ok {
				return odd, false
			}
		}
	}
}

// quoted reads name="value" with a name of letters and a value in which nothing is to be decoded.
func quoted(data []byte, i int) (name, value []byte, next int) {
	rest := data[i:]
	n := bytes.Index(rest, []byte(`="`))
	if n <= 0 || bytes.HasPrefix(rest, []byte("xmlns")) {
		return nil, nil, odd
	}
	name = rest[:n]
	for _, c := range name {
		if c |= 0x20; c < 'a' || c > 'z' {
			return nil, nil, odd
		}
	}
	value = rest[n+2:]
	end := bytes.IndexByte(value, '"')
	if end < 0 {
		return nil, nil, odd
	}
	value = value[:end]
	for j := 0; j < end; {
		r, size := utf8.DecodeRune(value[j:])
		if r < ' ' || r == '<' || r == '&' || r == utf8.RuneError && size == 1 || !inXML(r) {
			return nil, nil, odd
		}
		j += size
	}
	return name, value, i + n + 2 + end + 1
}
