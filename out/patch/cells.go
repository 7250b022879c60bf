package patch

import (
	"strconv"
	"strings"

	"ferrule/sheets/cell"
)

// cells goes through the cells of a row, whose start is given.
func (w *worksheet) cells(row tag) error {
	first := w.next
	style := -1
	if custom := value(w.old, row, "customFormat"); custom == "1" || custom == "true" {
		if n, err := strconv.Atoi(value(w.old, row, "s")); err == nil {
			style = n
		}
	}
	if row.form == single {
		if made := w.made(w.row, cell.MaxCol+1, style); made != "" {
			w.open(row, made)
		}
	} else if err := w.within(style); err != nil {
		return err
	}
	w.span(row, w.want[first:w.next])
	return nil
}

// within goes on to the end of the row.
func (w *worksheet) within(style int) error {
	col := int32(0)
	for t, ok := w.scan.next(); ok; t, ok = w.scan.next() {
		if t.form == closing && t.depth == 3 {
			w.insert(t.from, w.made(w.row, cell.MaxCol+1, style))
			return nil
		}
		if !w.is(t, "c") || t.depth != 4 || t.form == closing {
			continue
		}
		col++
		if r := value(w.old, t, "r"); r != "" {
			at, ok := cell.Parse(r)
			if !ok {
				return refuse("a cell of its part %s has the name %q", w.name, r)
			}
			col = at.Col
		}
		w.insert(t.from, w.made(w.row, col, style))
		if w.next < len(w.want) && w.want[w.next].At == (cell.Pos{Row: w.row, Col: col}) {
			c := w.want[w.next]
			w.next++
			if err := w.there(t, c); err != nil {
				return err
			}
		}
	}
	return refuse("the cells of its part %s do not end", w.name)
}

// there changes a cell that is there.
func (w *worksheet) there(t tag, c Cell) error {
	base := 0
	if s := value(w.old, t, "s"); s != "" {
		n, err := strconv.Atoi(s)
		if err != nil {
			return refuse("a cell of its part %s has the style %q", w.name, s)
		}
		base = n
	}
	style := w.style(c, base)
	if c.Write == nil {
		w.set(t, "s", strconv.Itoa(style))
		return nil
	}
	end := t.to
	if t.form == opening {
		for {
			in, ok := w.scan.next()
			if !ok {
				return refuse("a cell of its part %s does not end", w.name)
			}
			if w.is(in, "f") {
				return refuse("the cell %s holds a formula", c.At)
			}
			if end = in.to; in.form == closing && in.depth == t.depth {
				break
			}
		}
	}
	if _, rich := attr(w.old, t, "vm"); rich {
		return refuse("the cell %s holds more than a text", c.At)
	}
	w.cut(t.from, end, "<"+w.prefix+`c r="`+c.At.String()+`" s="`+strconv.Itoa(style)+`" t="inlineStr">`+w.inline(*c.Write)+"</"+w.prefix+"c>")
	return nil
}

// span widens what a row says of its columns, which is only told.
func (w *worksheet) span(row tag, cells []Cell) {
	from, to, ok := strings.Cut(value(w.old, row, "spans"), ":")
	a, err1 := strconv.Atoi(from)
	b, err2 := strconv.Atoi(to)
	if !ok || err1 != nil || err2 != nil || len(cells) == 0 {
		return
	}
	if x, y := min(a, int(cells[0].At.Col)), max(b, int(cells[len(cells)-1].At.Col)); x != a || y != b {
		w.set(row, "spans", strconv.Itoa(x)+":"+strconv.Itoa(y))
	}
}
