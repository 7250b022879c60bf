package propose_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"ferrule/compiler/propose"
	"ferrule/out/markup"
)

// grid makes a chart of so many parts and vehicles, of which one cell in three is marked.
func grid(parts, vehicles int) markup.Book {
	s := markup.Sheet{Name: "Chart", Rows: [][]markup.Cell{{markup.Words("Part no."), markup.Words("Place")}}}
	for v := range vehicles {
		s.Rows[0] = append(s.Rows[0], markup.Words(fmt.Sprintf("Borea %d 2004-2010", v+1)))
	}
	for n := range parts {
		row := []markup.Cell{markup.Words(fmt.Sprintf("MLP-%d", 10_000+n)), markup.Words(fmt.Sprintf("Place %d", n))}
		for v := range vehicles {
			text := ""
			if (n+v)%3 == 0 {
				text = "x"
			}
			row = append(row, markup.Words(text))
		}
		s.Rows = append(s.Rows, row)
	}
	return markup.Book{Name: "large.xlsx", Sheets: []markup.Sheet{s}}
}

// BenchmarkLarge looks at a chart of 2,000 parts and 200 vehicles.
func BenchmarkLarge(b *testing.B) {
	book := written(b, grid(2000, 200))
	for b.Loop() {
		p, err := propose.Look("large.xlsx", book, propose.NewNames(nil))
		require.NoError(b, err)
		require.NotEmpty(b, p.Rules)
	}
}
