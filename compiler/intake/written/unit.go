package written

import (
	"strings"
	"unicode"

	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// Unit is a column whose header has another unit in New than in Old.
type Unit struct {
	Both
	Was, Now string
	At       cell.Place // the header's column, in the first row that says the same in both
	Cells    int        // with a number, in rows that say the same in both releases
}

// Units gives the columns whose header has another unit now, while cells under it still say
// the same.
func (p *Pair) Units() []Unit {
	var out []Unit
	for i, c := range p.Columns {
		u := Unit{Both: c, Was: p.Old.Columns[c.Old].Unit, Now: p.New.Columns[c.New].Unit}
		if word.Fold(u.Was) == word.Fold(u.Now) {
			continue
		}
		p.stayed(i, &u)
		if u.Cells > 0 {
			out = append(out, u)
		}
	}
	return out
}

// stayed counts the numbers of a column in rows that are the same in both releases.
func (p *Pair) stayed(column int, u *Unit) {
	changed := map[int]bool{}
	for _, row := range p.new {
		changed[row] = true
	}
	at := p.Columns[column].New
	for row := range p.New.Rows {
		if changed[row] || !strings.ContainsFunc(p.New.Text(row, at), unicode.IsDigit) {
			continue
		}
		if u.Cells == 0 {
			u.At = p.New.Place(row, at)
		}
		u.Cells++
	}
}
