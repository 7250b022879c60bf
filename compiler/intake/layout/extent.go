package layout

import (
	"strings"

	"ferrule/sheets/cell"
)

// span is a stretch of rows with both its ends; From 0 where there is none, and To 0 where it
// has no end.
type span struct{ From, To int32 }

func (s span) holds(row int32) bool {
	return s.From > 0 && row >= s.From && (s.To == 0 || row <= s.To)
}

// extent is where a table stands on its sheet.
type extent struct {
	header span
	rows   span
	until  string // the text of the row that ends it
}

// extentOf reads what stands under Where of a table.
func extentOf(where string) (e extent, ok bool) {
	rest, headed := strings.TrimSpace(where), false
	for rest != "" {
		switch {
		case headerSaid.MatchString(rest):
			m := headerSaid.FindStringSubmatch(rest)
			e.header, headed = span{row(m[1]), row(m[2])}, true
			if e.header.To == 0 {
				e.header.To = e.header.From
			}
			rest = rest[len(m[0]):]
		case noHeader.MatchString(rest):
			headed, rest = true, rest[len(noHeader.FindString(rest)):]
		case rowsSaid.MatchString(rest):
			m := rowsSaid.FindStringSubmatch(rest)
			e.rows = span{row(m[1]), row(m[3])}
			if m[2] == "" {
				e.rows.To = e.rows.From
			}
			rest = rest[len(m[0]):]
		case untilSaid.MatchString(rest):
			m := untilSaid.FindStringSubmatch(rest)
			e.until, rest = strings.TrimSpace(m[1]), rest[len(m[0]):]
		default:
			return e, false
		}
		next := rest[len(betweenSaid.FindString(rest)):]
		if next == rest && rest != "" {
			return e, false
		}
		rest = next
	}
	return e, headed && e.sound()
}

// sound tells whether the rows follow one another as they are said.
func (e extent) sound() bool {
	return e.header.From <= e.header.To && (e.rows.To == 0 || e.rows.From <= e.rows.To) && e.header.To < cell.MaxRow
}
