package patch

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"ferrule/sheets/cell"
)

// author is who our notes are by.
const author = "ferrule"

// jotting is a note for one cell.
type jotting struct {
	at   cell.Pos
	text string
}

// annotate gives cells of a sheet notes. One that a cell has stays, and ours stands below in it.
func (p *patching) annotate(sheet int, w *worksheet, cells []Cell) error {
	var notes []jotting
	for _, c := range cells {
		if c.Note != nil {
			notes = append(notes, jotting{c.At, c.Note(w.own[c.At])})
		}
	}
	if len(notes) == 0 {
		return nil
	}
	slices.SortFunc(notes, func(a, b jotting) int { return cell.ComparePos(a.at, b.at) })
	from := p.book.SheetPart(sheet)
	rels, err := p.book.Relations(from)
	if err != nil {
		return err
	}
	part, drawing := "", ""
	for _, r := range rels {
		if r.Outside || r.Missing {
			continue
		}
		if r.Kind == "comments" {
			part = r.Target
		}
		if r.Kind == "vmlDrawing" && w.legacy != "" && r.ID == w.legacy {
			drawing = r.Target
		}
	}
	if w.legacy != "" && drawing == "" {
		return refuse("the drawing of the notes on its sheet %q is missing", p.book.Sheets()[sheet].Name)
	}
	fresh, err := p.comment(from, part, w.space, notes)
	if err != nil {
		return err
	}
	if drawing == "" {
		return p.newDrawing(from, w, fresh, sheet)
	}
	return p.draw(drawing, fresh)
}

// comment writes the notes, and gives those that are on cells which had none.
func (p *patching) comment(from, name, space string, notes []jotting) ([]jotting, error) {
	if name == "" {
		main := dirOf(p.book.WorkbookPart())
		name = p.free(main + "comments%.xml")
		p.keep(&part{name: name, made: true, space: space,
			old: []byte(head + `<comments xmlns="` + space + `"><authors></authors><commentList></commentList></comments>`)})
		if _, err := p.relate(from, "comments", name); err != nil {
			return nil, err
		}
		if err := p.typed(name, "application/vnd.openxmlformats-officedocument.spreadsheetml.comments+xml"); err != nil {
			return nil, err
		}
	}
	x := p.parts[name]
	if x == nil {
		var err error
		if x, err = p.edit(name); err != nil {
			return nil, err
		}
	} else if !x.made {
		return nil, refuse("two of its sheets share their notes")
	}
	return x.comments(notes)
}

// comments goes through the notes that are there.
func (x *part) comments(notes []jotting) ([]jotting, error) {
	left := map[cell.Pos]string{}
	for _, n := range notes {
		left[n.at] = n.text
	}
	s := scanner{data: x.old}
	authors, end := 0, -1
	for t, ok := s.next(); ok; t, ok = s.next() {
		switch name := x.child(t); {
		case name == "author" && t.depth == 3 && t.form != closing:
			authors++
		case name == "authors" && t.depth == 2 && t.form == closing:
			x.insert(t.from, `<`+x.prefix+`author>`+author+`</`+x.prefix+`author>`)
		case name == "authors" && t.depth == 2 && t.form == single:
			x.open(t, `<`+x.prefix+`author>`+author+`</`+x.prefix+`author>`)
		case name == "comment" && t.depth == 3 && t.form == opening:
			at, _ := cell.Parse(value(x.old, t, "ref"))
			if text, ours := left[at]; ours {
				delete(left, at)
				if err := x.below(&s, text); err != nil {
					return nil, err
				}
			}
		case name == "commentList" && t.depth == 2 && t.form == closing:
			end = t.from
			x.insert(end, x.unsaid(notes, left, authors))
		case name == "commentList" && t.depth == 2 && t.form == single:
			end = t.from
			x.open(t, x.unsaid(notes, left, authors))
		}
	}
	if end < 0 {
		return nil, refuse("its part %s lists notes in a way that is not known here", x.name)
	}
	return slices.DeleteFunc(notes, func(n jotting) bool { _, ours := left[n.at]; return !ours }), nil
}

// unsaid writes the notes on cells that had none.
func (x *part) unsaid(notes []jotting, left map[cell.Pos]string, by int) string {
	var b strings.Builder
	for _, n := range notes {
		if text, ours := left[n.at]; ours {
			b.WriteString(`<` + x.prefix + `comment ref="` + n.at.String() + `" authorId="` + strconv.Itoa(by) + `"><` + x.prefix + `text>` + x.said(text) + `</` + x.prefix + `text></` + x.prefix + `comment>`)
		}
	}
	return b.String()
}

// said is a run of text.
func (x *part) said(text string) string {
	return `<` + x.prefix + `r><` + x.prefix + `t xml:space="preserve">` + escaped(text) + `</` + x.prefix + `t></` + x.prefix + `r>`
}

// below puts ours under a note that a cell has: behind its runs, before how it is pronounced. A note
// that is one text becomes a run, since texts and runs do not stand side by side.
func (x *part) below(s *scanner, text string) error {
	for t, ok := s.next(); ok; t, ok = s.next() {
		name := x.child(t)
		switch {
		case name == "text" && t.depth == 4 && t.form == single:
			x.open(t, x.said(text))
			return nil
		case name == "t" && t.depth == 5 && t.form != closing:
			x.insert(t.from, `<`+x.prefix+`r>`)
			if t.form == single {
				x.insert(t.to, `</`+x.prefix+`r>`)
			}
		case name == "t" && t.depth == 5:
			x.insert(t.to, `</`+x.prefix+`r>`)
		case t.depth == 5 && t.form != closing && name != "r", t.depth == 4 && name == "text" && t.form == closing:
			x.insert(t.from, x.said("\n"+text))
			return nil
		case t.depth == 3:
			return refuse("a note in its part %s has no text", x.name)
		}
	}
	return refuse("its part %s ends early", x.name)
}

// The names of drawings of notes.
const (
	spaceV = "urn:schemas-microsoft-com:vml"
	spaceO = "urn:schemas-microsoft-com:office:office"
	spaceX = "urn:schemas-microsoft-com:office:excel"
)

// newDrawing makes the drawing of notes of a sheet that has none.
func (p *patching) newDrawing(from string, w *worksheet, notes []jotting, sheet int) error {
	name := p.free(dirOf(p.book.WorkbookPart()) + "drawings/vmlDrawing%.vml")
	shapes := shapeType + shapes(notes, (sheet+1)*1024, "")
	p.create(name, `<xml xmlns:v="`+spaceV+`" xmlns:o="`+spaceO+`" xmlns:x="`+spaceX+`"><o:shapelayout v:ext="edit"><o:idmap v:ext="edit" data="`+strconv.Itoa(sheet+1)+`"/></o:shapelayout>`+shapes+`</xml>`)
	id, err := p.relate(from, "vmlDrawing", name)
	if err != nil {
		return err
	}
	if err := p.typed(name, "application/vnd.openxmlformats-officedocument.vmlDrawing"); err != nil {
		return err
	}
	w.insert(w.place, `<`+w.prefix+`legacyDrawing xmlns:r="`+relSpace(w.space)+`" r:id="`+id+`"/>`)
	return nil
}

// draw adds shapes to a drawing.
func (p *patching) draw(name string, notes []jotting) error {
	if len(notes) == 0 {
		return nil
	}
	x, err := p.edit(name)
	if err != nil {
		return err
	}
	text := string(x.old)
	spaces := ""
	for _, n := range [...][2]string{{"v", spaceV}, {"o", spaceO}, {"x", spaceX}} {
		if !declares(x, n[0], n[1]) {
			spaces += ` xmlns:` + n[0] + `="` + n[1] + `"`
		}
	}
	add := shapes(notes, greatest(text), spaces)
	if !strings.Contains(text, `id="_x0000_t202"`) {
		add = strings.Replace(shapeType, "<v:shapetype ", "<v:shapetype"+spaces+" ", 1) + add
	}
	// What old programs write into drawings is not always well-formed, so its end is looked for.
	end := strings.LastIndex(text, "</")
	if end < 0 || strings.TrimSpace(text[end:]) != "</"+x.prefix+"xml>" {
		return refuse("its part %s draws notes in a way that is not known here", name)
	}
	x.insert(end, add)
	return nil
}

// declares tells whether the root says what a prefix stands for.
func declares(x *part, prefix, space string) bool {
	s := scanner{data: x.old}
	t, _ := s.next()
	return value(x.old, t, "xmlns:"+prefix) == space
}

// greatest gives the greatest number of a shape in a drawing.
func greatest(text string) int {
	most := 1024
	for rest := text; ; {
		_, after, ok := strings.Cut(rest, "_x0000_s")
		if !ok {
			return most
		}
		end := strings.IndexFunc(after, func(r rune) bool { return r < '0' || r > '9' })
		if n, err := strconv.Atoi(after[:max(end, 0)]); err == nil && n < 1<<30 {
			most = max(most, n)
		}
		rest = after
	}
}

const shapeType = `<v:shapetype id="_x0000_t202" coordsize="21600,21600" o:spt="202" path="m,l,21600r21600,l21600,xe"><v:stroke joinstyle="miter"/><v:path gradientshapeok="t" o:connecttype="rect"/></v:shapetype>`

// shapes draws the notes: closed until somebody points at the cell.
func shapes(notes []jotting, above int, spaces string) string {
	var b strings.Builder
	for i, n := range notes {
		row, col := int(n.at.Row)-1, int(n.at.Col)-1
		lines := 2 + len(n.text)/48 + strings.Count(n.text, "\n")
		fmt.Fprintf(&b, `<v:shape%s id="_x0000_s%d" type="#_x0000_t202" style="position:absolute;margin-left:59pt;margin-top:2pt;width:260pt;height:%dpt;z-index:%d;visibility:hidden" fillcolor="#ffffe1" o:insetmode="auto">`,
			spaces, above+1+i, min(13*lines, 400), i+1)
		b.WriteString(`<v:fill color2="#ffffe1"/><v:shadow on="t" color="black" obscured="t"/><v:path o:connecttype="none"/><v:textbox style="mso-direction-alt:auto"><div style="text-align:left"></div></v:textbox>`)
		fmt.Fprintf(&b, `<x:ClientData ObjectType="Note"><x:MoveWithCells/><x:SizeWithCells/><x:Anchor>%d, 15, %d, 2, %d, 60, %d, 4</x:Anchor><x:AutoFill>False</x:AutoFill><x:Row>%d</x:Row><x:Column>%d</x:Column></x:ClientData></v:shape>`,
			min(col+1, cell.MaxCol-6), min(row, cell.MaxRow-40), min(col+5, cell.MaxCol-1), min(row+min(lines, 30), cell.MaxRow-1), row, col)
	}
	return b.String()
}
