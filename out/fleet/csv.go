package fleet

import (
	"bufio"
	"io"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"ferrule/out/markup"
	"ferrule/out/visible"
)

// CSV writes one of the tables as comma-separated values (RFC 4180). A text that a spreadsheet
// program would take for a formula has an apostrophe before it, and signs that nobody sees are written out.
func CSV(w io.Writer, t markup.Long) error {
	out := bufio.NewWriter(w)
	line := []byte(nil)
	for i, c := range t.Columns {
		line = append(separate(line, i), csvField(c.Title)...)
	}
	if _, err := out.Write(append(line, '\n')); err != nil {
		return err
	}
	above := make([]struct{ text, as string }, len(t.Columns)) // what a row says of its vehicle stands in many lines
	err := t.Rows(func(row []any) error {
		line = line[:0]
		for i, v := range row {
			line = separate(line, i)
			switch v := v.(type) {
			case int64:
				line = strconv.AppendInt(line, v, 10)
			case string:
				if above[i].text != v {
					above[i].text, above[i].as = v, csvField(v)
				}
				line = append(line, above[i].as...)
			}
		}
		_, err := out.Write(append(line, '\n'))
		return err
	})
	if err != nil {
		return err
	}
	return out.Flush()
}

func separate(line []byte, column int) []byte {
	if column > 0 {
		return append(line, ',')
	}
	return line
}

// csvField is a text as it stands between commas.
func csvField(text string) string {
	text = harmless(text)
	first, _ := utf8.DecodeRuneInString(text)
	if text == "" || !strings.ContainsAny(text, ",\"\r\n") && !unicode.IsSpace(first) && text != `\.` { // which ends a table for some databases
		return text
	}
	return `"` + strings.ReplaceAll(text, `"`, `""`) + `"`
}

// harmless keeps spreadsheet programs from calculating what a customer has written.
func harmless(text string) string {
	if !printable(text) {
		text = visible.Text(text)
	}
	if text != "" && strings.ContainsRune("=+-@\t\r", rune(text[0])) {
		return "'" + text
	}
	return text
}

// printable tells of most texts that everybody sees all of them: a table of a large fleet has millions.
func printable(text string) bool {
	for i := range len(text) {
		if text[i] < ' ' || text[i] > '~' {
			return false
		}
	}
	return true
}
