package compare

import (
	"slices"
	"strings"

	"ferrule/compiler/finding"
	"ferrule/compiler/intake/drag"
	"ferrule/compiler/intake/sorted"
	"ferrule/compiler/intake/written"
	"ferrule/compiler/judge/accept"
	"ferrule/compiler/model"
	"ferrule/schema/word"
)

// slips tells what a slip of the hand did to a column since OLD, where the rows of both
// releases are known: columns that were sorted alone, cells that a fill went over. What now
// tells of the same column or cell anyway is not told again.
func (c *comparison) slips(now []*finding.Finding) []*finding.Finding {
	var out []*finding.Finding
	for _, p := range written.Pairs(c.old.Sheets, c.new.Sheets) {
		fs, alone := sorted.Since(p)
		for _, f := range slices.Concat(fs, drag.Since(p, alone, c.meant), units(p)) {
			if !slices.ContainsFunc(now, func(o *finding.Finding) bool { return tells(o, f) }) {
				f.Message = finding.Short(f.Message)
				c.ledger.Whole(f, accept.Use{})
				out = append(out, f)
			}
		}
	}
	return out
}

// tells tells whether a finding says the same of a cell as a slip does, or of its column if
// that was sorted.
func tells(f, slip *finding.Finding) bool {
	return f.Code == slip.Code && !f.Known && (slip.Code == finding.ColumnSorted && sameColumn(f, slip) ||
		slices.ContainsFunc(f.Cells, func(x finding.Cell) bool {
			return slices.ContainsFunc(slip.Cells, func(y finding.Cell) bool { return x.Place == y.Place })
		}))
}

// sameColumn tells whether a finding names a cell of the column of another's first cell.
func sameColumn(f, other *finding.Finding) bool {
	at := other.Cells[0].Place
	return slices.ContainsFunc(f.Cells, func(x finding.Cell) bool { return x.Sheet == at.Sheet && x.Pos.Col == at.Pos.Col })
}

// explained takes out of some findings what only follows from a column that was sorted: a
// number that climbs in it was not dragged.
func explained(fs, by []*finding.Finding) []*finding.Finding {
	return slices.DeleteFunc(fs, func(f *finding.Finding) bool {
		return f.Code == finding.CellDragged && !f.Known && f.Accepted == nil && slices.ContainsFunc(by, func(s *finding.Finding) bool {
			return s.Code == finding.ColumnSorted && s.Accepted == nil && sameColumn(f, s)
		})
	})
}

// meant tells whether a text had to go from so many cells of OLD: it went from all that held
// it, and there were others; or it is a part that NEW does not offer any more.
func (c *comparison) meant(was string, cells int) bool {
	if before := count(c.old.Sheets, was); before > cells && count(c.new.Sheets, was) == 0 {
		return true
	}
	_, number, counted := strings.Cut(was, " x ")
	if !counted {
		number = was
	}
	key := word.Fold(number)
	return slices.ContainsFunc(c.new.Catalogue.Parts, func(p *model.Part) bool {
		return p.Status != model.Current && word.Fold(p.Number) == key
	})
}

// count counts the cells that hold a text.
func count(sheets []*written.Sheet, text string) int {
	n := 0
	for _, s := range sheets {
		id := slices.Index(s.Texts, text)
		for i := 0; id >= 0 && i < len(s.Rows); i++ {
			for _, c := range s.Rows[i].Cells {
				if int(c) == id {
					n++
				}
			}
		}
	}
	return n
}
