package sheets

import (
	"encoding/xml"
	"path"
	"slices"
	"strings"

	"ferrule/sheets/cell"
)

// mostRemarks is how many cells with comments are told of a sheet.
const mostRemarks = 1000

// commented looks at the parts in which comments lie, which are read strictly as well.
func (c *packed) commented(sheet int, pass func(cell.Pos, string) bool) (cells []cell.Pos, n int, err error) {
	s := c.sheets[sheet]
	dir, base := path.Split(s.part)
	if c.pack.find(dir+"_rels/"+base+".rels") == nil {
		return nil, 0, nil
	}
	rels, err := c.pack.relations(s.part)
	if err != nil {
		return nil, 0, err
	}
	seen, parts := map[cell.Pos]bool{}, map[string]bool{}
	for _, r := range rels {
		if r.kind != "comments" && r.kind != "threadedComment" || r.outside || c.pack.find(r.target) == nil || parts[r.target] {
			continue
		}
		parts[r.target] = true
		if !c.pack.remarked.take(strings.ToLower(r.target), s.part) {
			return nil, 0, spot{sheet: s.Name}.fault("it has the comments of another sheet")
		}
		if err := c.remarks(r.target, s.Name, seen, pass); err != nil {
			return nil, 0, err
		}
	}
	for p, told := range seen {
		if told {
			cells = append(cells, p)
		}
	}
	slices.SortFunc(cells, cell.ComparePos)
	return cells[:min(len(cells), mostRemarks)], len(cells), nil
}

// remarks reads one part of comments. Threads are also kept as comments, for programs that
// know none.
func (c *packed) remarks(part, sheet string, seen map[cell.Pos]bool, pass func(cell.Pos, string) bool) error {
	m, err := c.pack.markup(part, sheet, maxSmall)
	if err != nil {
		return err
	}
	tok, err := m.next()
	for ; err == nil; tok, err = m.next() {
		t, ok := tok.(xml.StartElement)
		if !ok || t.Name.Local != "comment" && t.Name.Local != "threadedComment" {
			continue
		}
		ref, _ := attr(t, "ref")
		at, ok := cell.Parse(ref)
		if !ok {
			continue
		}
		passed := false
		if pass != nil && t.Name.Local == "comment" {
			text, err := m.inside()
			if err != nil {
				return err
			}
			passed = pass(at, text)
		}
		if seen[at] = seen[at] || !passed; len(seen) > maxRemarks {
			return m.fault("it has comments on more than %d cells", maxRemarks)
		}
	}
	return m.done(err)
}

// inside gives the texts in the element just opened as one, up to about maxRaw bytes, and reads to
// its end.
func (m *markup) inside() (string, error) {
	var b strings.Builder
	of := ""
	for to := m.depth - 1; m.depth > to; {
		tok, err := m.next()
		if err != nil {
			return "", err
		}
		switch t := tok.(type) {
		case xml.StartElement:
			of = t.Name.Local
		case xml.EndElement:
			of = ""
		case xml.CharData:
			if of == "t" && b.Len() <= maxRaw {
				b.Write(t)
			}
		}
	}
	return unescape(b.String()), nil
}
