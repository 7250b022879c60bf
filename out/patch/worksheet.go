package patch

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"ferrule/sheets/cell"
)

// worksheet changes cells of a sheet while it goes through it once.
type worksheet struct {
	*part
	styles *styler
	want   []Cell // in the order of the sheet
	next   int    // the first of want that is not done
	scan   scanner

	columns []columnStyle
	row     int32
	own     map[cell.Pos]string // the fills that cells had before
	legacy  string              // r:id of the drawing of notes, "" where there is none
	place   int                 // where that would stand
	top     tag                 // the last child of the root
}

// columnStyle is what blank cells of some columns look like.
type columnStyle struct {
	from, to int
	style    int
}

func newWorksheet(x *part, styles *styler, cells []Cell) (*worksheet, error) {
	want := slices.Clone(cells)
	slices.SortFunc(want, func(a, b Cell) int { return cell.ComparePos(a.At, b.At) })
	for i := 1; i < len(want); i++ {
		if want[i].At == want[i-1].At {
			panic("patch: a cell is named twice")
		}
	}
	return &worksheet{part: x, styles: styles, want: want, scan: scanner{data: x.old}, own: map[cell.Pos]string{}}, nil
}

func (w *worksheet) run() error {
	found := false
	for t, ok := w.scan.next(); ok; t, ok = w.scan.next() {
		name := w.child(t)
		if t.form != closing {
			w.locate(t, name)
		}
		switch {
		case t.form == closing && t.depth == 1:
			if w.place == 0 {
				w.place = t.from
			}
		case name == "col" && t.depth == 3:
			w.column(t)
		case name == "dimension" && t.depth == 2 && t.form != closing:
			w.dimension(t)
		case name == "sheetData" && t.depth == 2 && t.form == opening:
			found = true
			if err := w.data(); err != nil {
				return err
			}
		case name == "sheetData" && t.depth == 2 && t.form == single:
			found = true
			w.open(t, w.rows(cell.MaxRow+1))
		case name == "legacyDrawing" && t.depth == 2 && t.form != closing:
			w.legacy = idOf(w.old, t)
		}
	}
	if !found || w.next < len(w.want) {
		return refuse("the cells of its part %s are not where they can be changed", w.name)
	}
	return nil
}

// locate finds where the drawing of notes would stand: before the first element that comes behind it,
// which may be one of several alternatives.
func (w *worksheet) locate(t tag, name string) {
	switch {
	case t.depth == 2:
		w.top = t
	case t.depth != 4 || string(local(w.top.name)) != "AlternateContent":
		return
	}
	if w.place == 0 && rank(worksheetOrder, name) > rank(worksheetOrder, "legacyDrawing") {
		w.place = w.top.from
	}
}

// idOf gives the attribute r:id, whatever its prefix is.
func idOf(data []byte, t tag) (id string) {
	attributes(data, t, func(a attribute) bool {
		if string(local(a.name)) == "id" && len(a.name) > len("id") {
			id = string(data[a.from:a.to])
		}
		return id == ""
	})
	return id
}

func (w *worksheet) column(t tag) {
	from, err1 := strconv.Atoi(value(w.old, t, "min"))
	to, err2 := strconv.Atoi(value(w.old, t, "max"))
	style, err3 := strconv.Atoi(value(w.old, t, "style"))
	if cmp.Or(err1, err2, err3) == nil {
		w.columns = append(w.columns, columnStyle{from, to, style})
	}
}

// dimension widens what the sheet says of its extent, which is only told.
func (w *worksheet) dimension(t tag) {
	ref := value(w.old, t, "ref")
	if !strings.Contains(ref, ":") {
		ref += ":" + ref
	}
	r, ok := cell.ParseRange(ref)
	if !ok {
		return
	}
	wide := r
	for _, c := range w.want {
		wide.From.Row, wide.From.Col = min(wide.From.Row, c.At.Row), min(wide.From.Col, c.At.Col)
		wide.To.Row, wide.To.Col = max(wide.To.Row, c.At.Row), max(wide.To.Col, c.At.Col)
	}
	if wide != r {
		w.set(t, "ref", wide.String())
	}
}

// data goes through the rows.
func (w *worksheet) data() error {
	for t, ok := w.scan.next(); ok; t, ok = w.scan.next() {
		if t.form == closing && t.depth == 2 {
			w.insert(t.from, w.rows(cell.MaxRow+1))
			return nil
		}
		if !w.is(t, "row") || t.depth != 3 || t.form == closing {
			continue
		}
		w.row++
		if r := value(w.old, t, "r"); r != "" {
			n, err := strconv.ParseInt(r, 10, 32)
			if err != nil {
				return refuse("a row of its part %s has the number %q", w.name, r)
			}
			w.row = int32(n)
		}
		w.insert(t.from, w.rows(w.row))
		if err := w.cells(t); err != nil {
			return err
		}
	}
	return refuse("the rows of its part %s do not end", w.name)
}

// rows makes the rows before one that are not there.
func (w *worksheet) rows(before int32) string {
	var b strings.Builder
	for w.next < len(w.want) && w.want[w.next].At.Row < before {
		row := w.want[w.next].At.Row
		b.WriteString("<" + w.prefix + `row r="` + strconv.Itoa(int(row)) + `">`)
		b.WriteString(w.made(row, cell.MaxCol+1, -1))
		b.WriteString("</" + w.prefix + "row>")
	}
	return b.String()
}

// made makes the cells of a row before a column that are not there. style is that of the row, -1
// for none.
func (w *worksheet) made(row int32, before int32, style int) string {
	var b strings.Builder
	for w.next < len(w.want) && w.want[w.next].At.Row == row && w.want[w.next].At.Col < before {
		c := w.want[w.next]
		w.next++
		base := style
		if base < 0 {
			base = w.columnStyle(c.At.Col)
		}
		b.WriteString("<" + w.prefix + `c r="` + c.At.String() + `" s="` + strconv.Itoa(w.style(c, base)) + `"`)
		if c.Write == nil {
			b.WriteString("/>")
		} else {
			b.WriteString(` t="inlineStr">` + w.inline(*c.Write) + "</" + w.prefix + "c>")
		}
	}
	return b.String()
}

func (w *worksheet) columnStyle(col int32) int {
	for _, c := range w.columns {
		if int(col) >= c.from && int(col) <= c.to {
			return c.style
		}
	}
	return 0
}

// style gives the cell's style, and keeps which fill it had.
func (w *worksheet) style(c Cell, base int) int {
	w.own[c.At] = w.styles.fillOf(base)
	return w.styles.like(base, c.Fill, c.Write != nil)
}

// inline writes a text in place of a value.
func (w *worksheet) inline(text string) string {
	safe, _ := stored(text)
	return "<" + w.prefix + "is><" + w.prefix + `t xml:space="preserve">` + safe + "</" + w.prefix + "t></" + w.prefix + "is>"
}
