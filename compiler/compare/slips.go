package compare

import (
	"slices"
	"strings"

	"ferrule/compiler/accept"
	"ferrule/compiler/drag"
	"ferrule/compiler/finding"
	"ferrule/compiler/model"
	"ferrule/compiler/sorted"
	"ferrule/compiler/written"
	"ferrule/schema/word"
)

// slips tells what a slip of the hand did to a column since OLD, where the rows of both
// releases are known: columns that were sorted alone, cells that a fill went over. What now
// tells of the same cells is not told again.
func (c *comparison) slips(now []*finding.Finding) []*finding.Finding {
	var out []*finding.Finding
	for _, p := range written.Pairs(c.old.Sheets, c.new.Sheets) {
		fs, alone := sorted.Since(p)
		for _, f := range append(fs, drag.Since(p, alone, c.meant)...) {
			if !slices.ContainsFunc(now, func(o *finding.Finding) bool { return sameColumn(f, o) }) {
				c.ledger.Whole(f, accept.Use{})
				out = append(out, f)
			}
		}
	}
	return out
}

// sameColumn tells whether two findings of one code are about one column of a sheet.
func sameColumn(a, b *finding.Finding) bool {
	return a.Code == b.Code && slices.ContainsFunc(b.Cells, func(x finding.Cell) bool {
		return x.Sheet == a.Cells[0].Sheet && x.Pos.Col == a.Cells[0].Pos.Col
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
