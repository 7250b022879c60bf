package propose_test

import (
	"testing"

	"pgregory.net/rapid"

	"ferrule/out/markup"
	"ferrule/sheets/cell"
)

// TestAnySheet looks at sheets of any texts that mean something to a look, in any order and merged
// anyhow: it panics at none, claims no more than there is, and says the same twice.
func TestAnySheet(t *testing.T) {
	texts := rapid.SampledFrom([]string{"", "", "", "x", "x*", "x¹", "●", "-", "Part no.", "Vehicle", "Years", "Qty", "Description", "Place", "Notes", "Front axle", "Damper",
		"MLP-101", "MLP-102/MLP-103", "MLP-104, MLP-105", "Borea", "Borea 2004-2010", "2004-2010", "04-10", "2012 up", "except w/ electronic leveling", "* only with air beam",
		"1 with drums", "Total", "2", "1/2 in", "column A", "heads", `say "x"`, "a … b", "a / b", "=1+1", "Ä", "§", "()", "(1)", "/", "x = y", "\n", "from 2004 to", "Platform"})
	rapid.Check(t, func(rt *rapid.T) {
		rows := rapid.SliceOfN(rapid.SliceOfN(texts, 0, 6), 1, 12).Draw(rt, "rows")
		s := markup.Sheet{Name: rapid.SampledFrom([]string{"Chart", "Borea 2004", "Parts list", "Fitment", "*", "a!b"}).Draw(rt, "name")}
		if s.Name == "*" {
			s.Name = "Sheet 1"
		}
		for _, r := range rows {
			var cells []markup.Cell
			for _, text := range r {
				cells = append(cells, markup.Words(text))
			}
			s.Rows = append(s.Rows, cells)
		}
		if rapid.Bool().Draw(rt, "merged") {
			row, col := rapid.Int32Range(1, 4).Draw(rt, "row"), rapid.Int32Range(1, 4).Draw(rt, "col")
			s.Merges = append(s.Merges, cell.Range{From: cell.Pos{Row: row, Col: col}, To: cell.Pos{Row: row + rapid.Int32Range(0, 1).Draw(rt, "down"), Col: col + 1}})
		}
		b := markup.Book{Name: "any.xlsx", Sheets: []markup.Sheet{s}}
		p := lookAt(t, b)
		if again := lookAt(t, b); said(p) != said(again) {
			rt.Fatalf("two looks say two things:\n%s\n%s", said(p), said(again))
		}
		if filled, claimed := figures(p); claimed > filled {
			rt.Fatalf("%d of %d cells are claimed", claimed, filled)
		}
	})
}
