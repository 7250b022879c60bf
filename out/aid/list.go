package aid

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"ferrule/compiler/intake/table"
	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// growing begins the formula of a list that grows with the sheet that declares its names.
const growing = "OFFSET("

// room is how many rows behind the last one a list looks for more, and a column has its list.
const room = 5000

// from gives the formula of a column's list: the sheet of the workbook that declares the names, so that the list
// grows with it; else the names themselves while they are short; else a column of the sheet of lists.
func (w *work) from(c column) string {
	if f, ok := w.grown[c.offer]; ok {
		return f
	}
	f := w.grows(c)
	if utf8.RuneCountInString(f) > longestInline { // some programs take no longer formula either (from memory)
		f = ""
	}
	if f == "" && len(c.offer.names) > 0 {
		if f = inline(c.offer.names); f == "" {
			f = w.listed(c.offer)
		}
	}
	w.grown[c.offer] = f
	return f
}

// grows gives the formula of a list that grows with its sheet, "" where no single sheet of the workbook declares
// all its names.
func (w *work) grows(c column) string {
	l := c.offer
	if len(l.sources) != 1 || l.sources[0].table.Sheet.File != w.file || l.sources[0].table.Laid != nil {
		return ""
	}
	switch s := &l.sources[0]; {
	case c.trait != nil && !c.trait.ragged:
		return w.growingTrait(c.trait)
	case c.trait == nil && s.names == len(l.names):
		return w.growingColumn(s)
	}
	return ""
}

// growingColumn gives a formula for the filled cells of a column, however many there come to be. Cells between them
// that are blank today are counted in.
func (w *work) growingColumn(s *source) string {
	at := s.table.Columns[s.column].At
	first, last := at.Row+1, at.Row
	if len(s.rows) > 0 {
		first, last = s.rows[0], s.rows[len(s.rows)-1]
	}
	column := "'" + quoted(s.table.Sheet.Name) + "'!$" + cell.Column(at.Col) + "$"
	count := fmt.Sprintf("COUNTA(%s%d:$%s$%d)", column, first, cell.Column(at.Col), min(last+room, cell.MaxRow))
	if blank := w.blank(s.table.Sheet.Order, at.Col, first, last); blank > 0 {
		count += fmt.Sprintf("+%d", blank)
	}
	return fmt.Sprintf(growing+"%s%d,0,0,MAX(1,%s),1)", column, first, count)
}

// blank counts the blank cells of a column between two rows.
func (w *work) blank(sheet int, col, first, last int32) int {
	n := int(last - first + 1)
	_, err := w.book.Rows(sheet, func(r *sheets.Row) error {
		if r.Number < first || r.Number > last {
			return nil
		}
		for i := range r.Cells {
			if c := &r.Cells[i]; c.Col == col && (c.Kind != sheets.Blank || c.Formula != "") {
				n--
			}
		}
		return nil
	})
	if err != nil {
		panic("aid: blank: a sheet that was read cannot be read: " + err.Error())
	}
	return n
}

// wild are characters that a spreadsheet program does not take as they are where it looks for a text.
var wild = strings.NewReplacer("~", "~~", "*", "~*", "?", "~?", `"`, `""`)

// growingTrait gives a formula for the values of a trait, which stand one below the other.
func (w *work) growingTrait(x *trait) string {
	s := &x.sources[0]
	sheet := "'" + quoted(s.table.Sheet.Name) + "'!"
	end := min(x.last+room, cell.MaxRow)
	column := func(i int) string {
		return fmt.Sprintf("%s$%[2]s$1:$%[2]s$%[3]d", sheet, cell.Column(s.table.Columns[i].At.Col), end)
	}
	name, wanted := column(find(s.table, "Trait")), `"`+wild.Replace(x.head)+`"`
	count := "COUNTIF(" + name + "," + wanted + ")"
	if i := find(s.table, "Platform"); i >= 0 {
		count = "COUNTIFS(" + name + "," + wanted + "," + column(i) + `,"")`
	}
	return fmt.Sprintf(growing+"%s$%s$1,MATCH(%s,%s,0)-1,0,%s,1)", sheet, cell.Column(s.table.Columns[s.column].At.Col), wanted, name, count)
}

func quoted(sheet string) string { return strings.ReplaceAll(sheet, "'", "''") }

// longestInline is how many characters a list that is written out may have
// (Microsoft's documentation of data validation).
const longestInline = 255

// inline writes a list out, "" where it would be too long or a name holds a comma.
func inline(names []string) string {
	text := strings.Join(names, ",")
	if utf8.RuneCountInString(text) > longestInline || strings.Count(text, ",") >= len(names) {
		return ""
	}
	return `"` + strings.ReplaceAll(text, `"`, `""`) + `"`
}

// pickRows gives the cells of a column that have a list: those of the table, and as many again as a
// person fills in by hand.
func pickRows(t *table.Table, at cell.Pos) cell.Range {
	last := at.Row
	if n := len(t.Records); n > 0 {
		last = t.Records[n-1].Row
	}
	return cell.Range{From: cell.Pos{Row: min(at.Row+1, cell.MaxRow), Col: at.Col}, To: cell.Pos{Row: min(last+1000, cell.MaxRow), Col: at.Col}}
}
