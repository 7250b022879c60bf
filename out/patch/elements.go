package patch

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"path"
	"slices"
	"strings"

	"ferrule/sheets"
)

// sameElements holds that every part which was edited has the elements that it had, with what is in
// them, and beside them only those that were put in; and that they stand in the order of the schema.
func (p *patching) sameElements(copied *sheets.Book) error {
	for _, name := range p.order {
		x := p.parts[name]
		if x.old == nil || len(x.cuts) == 0 && !x.made {
			continue
		}
		is, err := copied.Content(name, 2*maxPart)
		if err != nil {
			return broken("its part %s cannot be read (%v)", name, err)
		}
		if err := x.same(is); err != nil {
			return err
		}
		if inOrder(x, x.old) && !inOrder(x, is) {
			return broken("the elements of its part %s stand in another order than they must", name)
		}
	}
	return nil
}

func (x *part) same(data []byte) error {
	was, err := elements(x.old)
	is, err2 := elements(data)
	switch {
	case err != nil && strings.HasSuffix(strings.ToLower(x.name), ".vml"):
		// What programs write here is not always well-formed, so that only what was put in can be told.
		return nil
	case err != nil:
		return broken("its part %s was no XML (%v)", x.name, err)
	case err2 != nil:
		return broken("its part %s would be no XML (%v)", x.name, err2)
	}
	for _, c := range x.cuts {
		if c.within {
			continue
		}
		take(was, []byte(c.with), 1)
		take(was, x.old[c.from:c.to], -1)
	}
	for name, n := range is {
		was[name] -= n
	}
	for name, n := range was {
		if n != 0 {
			return broken("its part %s would have %d elements %s less than before", x.name, n, name)
		}
	}
	return nil
}

// told are attributes that are changed: the format of a cell, how many there are of a list, how far a
// sheet and a row reach, what is shown first.
var told = []string{"c s", "row spans", "dimension ref", "sheetView tabSelected", "sheetView topLeftCell", "dataValidations count", "workbookView activeTab", "calcPr fullCalcOnLoad",
	"fonts count", "fills count", "borders count", "cellXfs count"}

// elements counts the elements of a part by their names and attributes, and the texts in it.
func elements(data []byte) (map[string]int, error) {
	d := xml.NewDecoder(bytes.NewReader(data))
	d.CharsetReader = func(_ string, in io.Reader) (io.Reader, error) { return in, nil }
	out := map[string]int{}
	var text strings.Builder
	for {
		t, err := d.Token()
		if errors.Is(err, io.EOF) {
			return out, nil
		}
		if err != nil {
			return nil, err
		}
		switch e := t.(type) {
		case xml.CharData:
			text.Write(e)
		case xml.EndElement, xml.StartElement:
			count(out, text.String(), 1)
			text.Reset()
		}
		if e, ok := t.(xml.StartElement); ok {
			var attrs []string
			for _, a := range e.Attr {
				if !slices.Contains(told, e.Name.Local+" "+a.Name.Local) {
					attrs = append(attrs, a.Name.Local+"="+a.Value)
				}
			}
			out[spelled(e.Name.Local, attrs)]++
		}
	}
}

// count counts a text that is more than white space.
func count(in map[string]int, text string, n int) {
	if strings.TrimSpace(text) != "" {
		in["the text "+text] += n
	}
}

func spelled(name string, attrs []string) string {
	slices.Sort(attrs)
	return name + " " + strings.Join(attrs, " ")
}

// take counts the elements that begin in a piece of XML, and its texts, as elements does.
func take(in map[string]int, data []byte, n int) {
	s := scanner{data: data}
	last := 0
	for t, ok := s.next(); ok; t, ok = s.next() {
		count(in, plain(data[last:t.from]), n)
		if last = t.to; t.form == closing {
			continue
		}
		var attrs []string
		name := string(local(t.name))
		attributes(data, t, func(a attribute) bool {
			if by := string(local(a.name)); !slices.Contains(told, name+" "+by) {
				attrs = append(attrs, by+"="+plain(data[a.from:a.to]))
			}
			return true
		})
		in[spelled(name, attrs)] += n
	}
	count(in, plain(data[last:]), n)
}

// plain gives a value without entities.
func plain(raw []byte) string {
	if !bytes.ContainsAny(raw, "&\r\n") {
		return string(raw)
	}
	d := xml.NewDecoder(bytes.NewReader(slices.Concat([]byte("<a>"), raw, []byte("</a>"))))
	var b strings.Builder
	for {
		t, err := d.Token()
		if err != nil {
			return b.String()
		}
		if text, ok := t.(xml.CharData); ok {
			b.Write(text)
		}
	}
}

// untyped lists the parts of which the list of types says nothing.
func untyped(book *sheets.Book) ([]string, error) {
	data, err := book.Content(typesPart, maxPart)
	if err != nil {
		return nil, err
	}
	known := map[string]bool{}
	s := scanner{data: data}
	for t, ok := s.next(); ok; t, ok = s.next() {
		switch string(local(t.name)) {
		case "Default":
			known["."+strings.ToLower(value(data, t, "Extension"))] = true
		case "Override":
			known[strings.ToLower(strings.TrimPrefix(plain([]byte(value(data, t, "PartName"))), "/"))] = true
		}
	}
	var out []string
	for _, name := range book.Parts() {
		low := strings.ToLower(name)
		if !known[low] && !known[strings.ToLower(path.Ext(name))] && name != typesPart {
			out = append(out, name)
		}
	}
	return out, nil
}
