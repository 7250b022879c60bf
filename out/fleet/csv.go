package fleet

import (
	"encoding/csv"
	"io"
	"strconv"
	"strings"
	"unicode/utf8"

	"ferrule/out/markup"
	"ferrule/out/visible"
)

// CSV writes one of the tables as comma-separated values (RFC 4180). A text that a spreadsheet
// program would take for a formula has an apostrophe before it, and signs that nobody sees are written out.
func CSV(w io.Writer, t markup.Long) error {
	out := csv.NewWriter(w)
	line := make([]string, len(t.Columns))
	for i, c := range t.Columns {
		line[i] = harmless(c.Title)
	}
	if err := out.Write(line); err != nil {
		return err
	}
	err := t.Rows(func(row []any) error {
		for i, v := range row {
			switch v := v.(type) {
			case int64:
				line[i] = strconv.FormatInt(v, 10)
			case string:
				line[i] = harmless(v)
			default:
				line[i] = ""
			}
		}
		return out.Write(line)
	})
	out.Flush()
	if err == nil {
		err = out.Error()
	}
	return err
}

// begins are the signs that a formula begins with. Programs for languages with wide letters take those for the same (from
// memory, no source).
const begins = "=+-@\t\r\uff1d\uff0b\uff0d\uff20"

// harmless keeps spreadsheet programs from calculating what a customer has written.
func harmless(text string) string {
	text = visible.Text(text)
	if first, _ := utf8.DecodeRuneInString(text); text != "" && strings.ContainsRune(begins, first) {
		return "'" + text
	}
	return text
}
