package patch

import (
	"strconv"
	"strings"

	"ferrule/sheets/cell"
)

// Aid is what helps to fill in a sheet and to print it. Nothing of it is done where States says that the
// sheet has it already: that is for the caller to look at.
type Aid struct {
	Sheet  int        // index in sheets.Book.Sheets
	Pane   cell.Pos   // the first cell that moves: what is above it and left of it stays in sight; zero: nothing
	Filter cell.Range // with the header; zero: none
	Widths []Width    // of columns of which nothing is said, left to right
	Picks  []Pick
	Pages  int      // how many of A4 in landscape it is wide in print; 0: that is not said
	Title  cell.Pos // the row and the column that are repeated in print; zero: none
}

// Width is how wide a column is, in characters.
type Width struct {
	Col  int32
	Wide float64
}

// Pick is a list to pick from. What is not on it can be typed.
type Pick struct {
	At            cell.Range
	From          string // the formula of the list
	Title, Prompt string // shown beside a cell while it is filled in
	Doubt         string // asks where something else is typed whether that is meant; "": nothing does
}

// aid does it, in the order of the schema: what is put at one place stays in the order in which it is put there.
func (p *patching) aid(a Aid) error {
	x, err := p.edit(p.book.SheetPart(a.Sheet))
	if err != nil {
		return err
	}
	var views, selections, columns []tag
	o := outlined(x, worksheetOrder, func(within string, t tag) {
		switch {
		case t.form == closing:
		case within == "sheetViews" && t.depth == 3:
			views = append(views, t)
		case within == "sheetViews" && t.depth == 4 && x.child(t) == "selection":
			selections = append(selections, t)
		case within == "cols" && t.depth == 3:
			columns = append(columns, t)
		}
	})
	if a.Pages > 0 {
		o.put("sheetPr", "<"+x.prefix+`pageSetUpPr fitToPage="1"/>`)
	}
	if a.Pane != (cell.Pos{}) {
		o.freeze(a.Pane, views, selections)
	}
	o.widen(a.Widths, columns)
	if a.Filter != (cell.Range{}) {
		o.insert(o.place("autoFilter"), "<"+x.prefix+`autoFilter ref="`+a.Filter.String()+`"/>`)
	}
	o.offer(a.Picks)
	if a.Pages > 0 {
		o.insert(o.place("pageSetup"), "<"+x.prefix+`pageSetup paperSize="9" orientation="landscape" fitToWidth="`+strconv.Itoa(a.Pages)+`" fitToHeight="0"/>`)
	}
	return nil
}

// freeze keeps what is above and left of a cell in sight, from the sheet's first cell on.
func (o *outline) freeze(at cell.Pos, views, selections []tag) {
	split, pane := "", "bottomRight"
	if at.Col > 1 {
		split = ` xSplit="` + strconv.Itoa(int(at.Col-1)) + `"`
	} else {
		pane = "bottomLeft"
	}
	if at.Row > 1 {
		split += ` ySplit="` + strconv.Itoa(int(at.Row-1)) + `"`
	} else {
		pane = "topRight"
	}
	first := "<" + o.prefix + "pane" + split + ` topLeftCell="` + at.String() + `" activePane="` + pane + `" state="frozen"/>`
	second := "<" + o.prefix + `selection pane="` + pane + `" activeCell="` + at.String() + `" sqref="` + at.String() + `"/>`
	switch {
	case len(views) == 0:
		o.put("sheetViews", "<"+o.prefix+`sheetView workbookViewId="0">`+first+second+"</"+o.prefix+"sheetView>")
		return
	case views[0].form == single:
		o.open(views[0], first+second)
	case len(selections) == 0:
		o.insert(views[0].to, first+second)
	default:
		o.insert(views[0].to, first)
		// The selection of a sheet without panes is that of the upper left one now.
		o.insert(endOf(o.old, selections[len(selections)-1]), second)
	}
	if value(o.old, views[0], "topLeftCell") != "" {
		o.set(views[0], "topLeftCell", "A1") // else what is above could not be reached
	}
}

// endOf gives where an element without children ends.
func endOf(data []byte, t tag) int {
	if t.form == single {
		return t.to
	}
	s := scanner{data: data, at: t.to}
	end, _ := s.next()
	return max(end.to, t.to)
}

// widen says how wide columns are, among those of which something is said.
func (o *outline) widen(widths []Width, columns []tag) {
	if len(widths) == 0 {
		return
	}
	var behind strings.Builder
	for _, w := range widths {
		n := strconv.Itoa(int(w.Col))
		col := "<" + o.prefix + `col min="` + n + `" max="` + n + `" width="` + strconv.FormatFloat(w.Wide, 'f', -1, 64) + `" customWidth="1"/>`
		at := -1
		for _, c := range columns {
			if from, err := strconv.Atoi(value(o.old, c, "min")); err == nil && from > int(w.Col) {
				at = c.from
				break
			}
		}
		if at < 0 {
			behind.WriteString(col)
			continue
		}
		o.insert(at, col)
	}
	if behind.Len() > 0 {
		o.put("cols", behind.String())
	}
}

// offer adds lists to pick from.
func (o *outline) offer(picks []Pick) {
	if len(picks) == 0 {
		return
	}
	var b strings.Builder
	for _, p := range picks {
		b.WriteString("<" + o.prefix + `dataValidation type="list"`)
		if p.Doubt != "" {
			b.WriteString(` errorStyle="warning" showErrorMessage="1" errorTitle="` + escaped(p.Title) + `" error="` + escaped(p.Doubt) + `"`)
		}
		b.WriteString(` allowBlank="1" showInputMessage="1" promptTitle="` + escaped(p.Title) + `" prompt="` + escaped(p.Prompt) + `" sqref="` + p.At.String() + `">`)
		b.WriteString("<" + o.prefix + "formula1>" + escaped(p.From) + "</" + o.prefix + "formula1></" + o.prefix + "dataValidation>")
	}
	n := len(picks)
	if c := o.find("dataValidations"); c != nil {
		if have, err := strconv.Atoi(value(o.old, c.start, "count")); err == nil {
			o.set(c.start, "count", strconv.Itoa(have+n))
		}
		o.put("dataValidations", b.String())
		return
	}
	o.insert(o.place("dataValidations"), "<"+o.prefix+`dataValidations count="`+strconv.Itoa(n)+`">`+b.String()+"</"+o.prefix+"dataValidations>")
}

// repeat has the header and the first column of sheets repeated in print.
func (p *patching) repeat(aids []Aid) error {
	places, main, err := p.places()
	if err != nil {
		return err
	}
	var b strings.Builder
	for _, a := range aids {
		if a.Title == (cell.Pos{}) {
			continue
		}
		sheet := "'" + strings.ReplaceAll(p.book.Sheets()[a.Sheet].Name, "'", "''") + "'!"
		row, col := "$"+strconv.Itoa(int(a.Title.Row)), "$"+cell.Column(a.Title.Col)
		name := sheet + col + ":" + col + "," + sheet + row + ":" + row
		b.WriteString("<" + main.prefix + `definedName name="` + printTitles + `" localSheetId="` + strconv.Itoa(places[a.Sheet]) + `">` + escaped(name) + "</" + main.prefix + "definedName>")
	}
	if b.Len() > 0 {
		outlined(main, workbookOrder, func(string, tag) {}).put("definedNames", b.String())
	}
	return nil
}
