package patch

import (
	"strconv"
	"strings"

	"ferrule/sheets/cell"
)

// Role is what a cell of the appended sheet looks like.
type Role uint8

const (
	Plain  Role = iota // text as it is
	Body               // text that wraps
	Head               // bold
	Linked             // as links are shown
)

// Sheet is a sheet to append. Its cells hold texts, whatever they begin with.
type Sheet struct {
	Name   string
	Widths []float64 // of the columns, in characters
	Rows   [][]Text
	Header int // the row of the header, counted from 1: it stays in sight and has the filter; 0 for none
	Colour string
	Hidden bool // it is not shown, and the workbook opens where it did; else it is opened first
}

// Text is a cell of it.
type Text struct {
	Text string
	Role Role
	Fill string // as RRGGBB, "" for none
	Link *Link
}

// Link leads to a cell of a sheet of the workbook, or to the sheet where the cell is zero.
type Link struct {
	Sheet string
	At    cell.Pos
}

// maxLinks is how many links a sheet may have (of the most used program, from memory).
const maxLinks = 65_000

// add appends the sheet, and makes it the one that is opened first unless it is hidden.
func (p *patching) add() error {
	main, err := p.edit(p.book.WorkbookPart())
	if err != nil {
		return err
	}
	p.sheet = p.freeSheet(main, p.change.Sheet.Name)
	name := p.free(dirOf(main.name) + "worksheets/sheet%.xml")
	p.create(name, p.markup(main.space))
	if err := p.typed(name, "application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"); err != nil {
		return err
	}
	id, err := p.relate(main.name, "worksheet", name)
	if err != nil {
		return err
	}
	if err := p.listed(main, id); err != nil {
		return err
	}
	if p.change.Sheet.Hidden {
		return nil
	}
	return p.deselect()
}

// freeSheet gives a name that no sheet has, those without cells among them.
func (p *patching) freeSheet(main *part, want string) string {
	taken := map[string]bool{}
	s := scanner{data: main.old}
	for t, ok := s.next(); ok; t, ok = s.next() {
		if main.is(t, "sheet") {
			taken[strings.ToLower(value(main.old, t, "name"))] = true
		}
	}
	for _, i := range p.book.Sheets() {
		taken[strings.ToLower(i.Name)] = true
	}
	name := want
	for n := 2; taken[strings.ToLower(name)]; n++ {
		name = want + " " + strconv.Itoa(n)
	}
	return name
}

// listed puts the sheet behind all others and opens the workbook at it unless it is hidden.
func (p *patching) listed(main *part, id string) error {
	s := scanner{data: main.old}
	number, last, end := 0, 0, -1
	var views []tag
	var sheets, books tag
	for t, ok := s.next(); ok; t, ok = s.next() {
		switch name := main.child(t); {
		case name == "sheets" && t.depth == 2 && t.form == opening:
			sheets = t
		case name == "sheets" && t.depth == 2 && t.form == closing:
			end = t.from
		case name == "sheet" && t.depth == 3 && t.form != closing:
			n, _ := strconv.Atoi(value(main.old, t, "sheetId"))
			number, last = number+1, max(last, n)
		case name == "workbookView" && t.depth == 3 && t.form != closing:
			views = append(views, t)
		case name == "bookViews" && t.depth == 2 && t.form != closing:
			books = t
		}
	}
	if end < 0 {
		return refuse("its part %s lists the sheets in a way that is not known here", main.name)
	}
	if p.change.Sheet.Hidden {
		main.insert(end, p.listing(main, id, last+1, ` state="hidden"`))
		return nil
	}
	if books.to > 0 && len(views) == 0 {
		return refuse("its part %s says nothing of the window in which it is shown, where it should", main.name)
	}
	main.insert(end, p.listing(main, id, last+1, ""))
	active := strconv.Itoa(number)
	for _, v := range views {
		main.set(v, "activeTab", active)
	}
	if len(views) == 0 {
		main.insert(sheets.from, `<`+main.prefix+`bookViews><`+main.prefix+`workbookView activeTab="`+active+`"/></`+main.prefix+`bookViews>`)
	}
	return nil
}

// listing is how the workbook lists the sheet.
func (p *patching) listing(main *part, id string, number int, state string) string {
	return `<` + main.prefix + `sheet xmlns:r="` + relSpace(main.space) + `" name="` + escaped(p.sheet) + `" sheetId="` + strconv.Itoa(number) + `"` + state + ` r:id="` + id + `"/>`
}

// deselect takes back that other sheets are selected: of two that are, what is typed goes into both.
func (p *patching) deselect() error {
	rels, err := p.book.Relations(p.book.WorkbookPart())
	if err != nil {
		return err
	}
	for _, r := range rels {
		if r.Outside || r.Missing || r.Kind != "worksheet" && r.Kind != "chartsheet" && r.Kind != "dialogsheet" && !strings.HasSuffix(r.Kind, "acrosheet") {
			continue
		}
		if err := p.unselect(r.Target); err != nil {
			return err
		}
	}
	return nil
}

func (p *patching) unselect(name string) error {
	x := p.parts[name]
	if x == nil {
		data, err := p.book.Content(name, maxPart)
		if err != nil {
			return err
		}
		x = &part{name: name, old: data}
		if err := x.root(); err != nil {
			return err
		}
	}
	s := scanner{data: x.old}
	var on []tag
	for t, ok := s.next(); ok; t, ok = s.next() {
		if t.depth == 2 && t.form != closing && x.child(t) == "sheetData" {
			break
		}
		if v := value(x.old, t, "tabSelected"); x.is(t, "sheetView") && t.depth == 3 && (v == "1" || v == "true") {
			on = append(on, t)
		}
	}
	if len(on) == 0 {
		return nil
	}
	x, err := p.edit(name)
	if err != nil {
		return err
	}
	for _, t := range on {
		x.set(t, "tabSelected", "0")
	}
	return nil
}

// markup writes the sheet.
func (p *patching) markup(space string) string {
	s := p.change.Sheet
	var b strings.Builder
	wide, selected := len(s.Widths), ` tabSelected="1"`
	if s.Hidden {
		selected = ""
	}
	b.WriteString(head + `<worksheet xmlns="` + space + `"><sheetPr><tabColor rgb="FF` + s.Colour + `"/><pageSetUpPr fitToPage="1"/></sheetPr>`)
	b.WriteString(`<dimension ref="A1:` + cell.Pos{Row: int32(max(len(s.Rows), 1)), Col: int32(wide)}.String() + `"/>`)
	b.WriteString(`<sheetViews><sheetView` + selected + ` showGridLines="0" workbookViewId="0">`)
	if s.Header > 0 {
		top := cell.Pos{Row: int32(s.Header + 1), Col: 1}.String()
		b.WriteString(`<pane ySplit="` + strconv.Itoa(s.Header) + `" topLeftCell="` + top + `" activePane="bottomLeft" state="frozen"/><selection pane="bottomLeft" activeCell="` + top + `" sqref="` + top + `"/>`)
	}
	b.WriteString(`</sheetView></sheetViews><sheetFormatPr defaultRowHeight="15"/><cols>`)
	for i, w := range s.Widths {
		n := strconv.Itoa(i + 1)
		b.WriteString(`<col min="` + n + `" max="` + n + `" width="` + strconv.FormatFloat(w, 'f', -1, 64) + `" customWidth="1"/>`)
	}
	b.WriteString(`</cols><sheetData>`)
	links := p.cellsOf(&b, s)
	b.WriteString(`</sheetData>`)
	if s.Header > 0 {
		b.WriteString(`<autoFilter ref="A` + strconv.Itoa(s.Header) + `:` + cell.Pos{Row: int32(len(s.Rows)), Col: int32(wide)}.String() + `"/>`)
	}
	if links != "" {
		b.WriteString(`<hyperlinks>` + links + `</hyperlinks>`)
	}
	b.WriteString(`<pageMargins left="0.5" right="0.5" top="0.6" bottom="0.6" header="0.3" footer="0.3"/><pageSetup orientation="landscape" fitToHeight="0"/></worksheet>`)
	return b.String()
}

// cellsOf writes the rows and gives the links in them.
func (p *patching) cellsOf(b *strings.Builder, s *Sheet) string {
	var links strings.Builder
	n := 0
	for r, row := range s.Rows {
		b.WriteString(`<row r="` + strconv.Itoa(r+1) + `">`)
		for c, t := range row {
			if t.Text == "" && t.Fill == "" {
				continue
			}
			at := cell.Pos{Row: int32(r + 1), Col: int32(c + 1)}.String()
			style := p.styles.format(like{base: -1, fill: t.Fill, text: true, role: t.Role})
			b.WriteString(`<c r="` + at + `" s="` + strconv.Itoa(style) + `" t="inlineStr"><is><t xml:space="preserve">` + escaped(t.Text) + `</t></is></c>`)
			if t.Link != nil && n < maxLinks {
				n++
				links.WriteString(`<hyperlink ref="` + at + `" location="` + escaped(t.Link.where()) + `" display="` + escaped(t.Text) + `"/>`)
			}
		}
		b.WriteString(`</row>`)
	}
	return links.String()
}

func (l *Link) where() string {
	at := l.At.String()
	if l.At == (cell.Pos{}) {
		at = "A1"
	}
	return "'" + strings.ReplaceAll(l.Sheet, "'", "''") + "'!" + at
}

// recalculate has formulas worked out anew where cells that they may look at have changed.
func (p *patching) recalculate() error {
	written := false
	for _, c := range p.change.Cells {
		written = written || c.Write != nil
	}
	if !written {
		return nil
	}
	main, err := p.edit(p.book.WorkbookPart())
	if err != nil {
		return err
	}
	s := scanner{data: main.old}
	for t, ok := s.next(); ok; t, ok = s.next() {
		switch name := main.child(t); {
		case t.depth == 2 && name == "calcPr" && t.form != closing:
			main.set(t, "fullCalcOnLoad", "1")
			return nil
		case t.depth == 2 && t.form != closing && rank(workbookOrder, name) > rank(workbookOrder, "calcPr"), t.depth == 1 && t.form == closing:
			main.insert(t.from, `<`+main.prefix+`calcPr fullCalcOnLoad="1"/>`)
			return nil
		}
	}
	return nil
}
