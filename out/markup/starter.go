package markup

import (
	_ "embed"
)

//go:embed starter.txtar
var starter []byte

// Starter gives the catalogue to begin with: every sheet of the format with example
// rows to overwrite, which compile without an error as they stand.
func Starter() []Book {
	books, err := Books(starter)
	if err != nil {
		panic("markup: the embedded starter cannot be read: " + err.Error())
	}
	return books
}
