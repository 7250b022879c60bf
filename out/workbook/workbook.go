// Package workbook writes made catalogues as workbooks, for tests and benchmarks.
package workbook

import (
	"strconv"

	"ferrule/compiler/tidy"
	"ferrule/out/markup"
)

// Name is how the file of a catalogue is called.
const Name = "tidy.xlsx"

// Write writes a catalogue as one workbook into a folder.
func Write(dir string, sheets []tidy.Sheet) error {
	return markup.WriteAll(dir, []markup.Book{of(sheets)}, markup.Options{Plain: true})
}

// of makes a workbook of sheets of texts; what reads as a number is one.
func of(sheets []tidy.Sheet) markup.Book {
	b := markup.Book{Name: Name}
	for _, s := range sheets {
		to := markup.Sheet{Name: s.Name}
		for _, r := range s.Rows {
			cells := make([]markup.Cell, len(r))
			for i, text := range r {
				cells[i] = markup.Words(text)
				if _, err := strconv.Atoi(text); err == nil {
					cells[i] = markup.Cell{Kind: markup.Number, Text: text}
				}
			}
			to.Rows = append(to.Rows, cells)
		}
		b.Sheets = append(b.Sheets, to)
	}
	return b
}
