package sheets_test

import (
	"encoding/binary"
	"encoding/csv"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// FuzzSeparated reads anything as a text file: it never panics, fails with a fault only, keeps the
// promises of Row and Value, and gives the same twice.
func FuzzSeparated(f *testing.F) {
	for _, text := range []string{"", "Platform;Years\n", "a,b\r\n\"c\n\"\"d\",\r", "sep=\t\na\tb", "a,\"b", "a\"b,c", "\ufeff\"\"\n\n;",
		inWide("a,b\n𝄞,d", binary.LittleEndian), inWide("\"a\";b", binary.BigEndian), "a,b;c\nd,e;f", "\xe9", "=\"1\",2"} {
		f.Add(text, false)
		f.Add(text, true)
	}
	f.Fuzz(func(t *testing.T, text string, tabs bool) {
		name := "x.csv"
		if tabs {
			name = "x.tsv"
		}
		b := sheets.ReadText(strings.NewReader(text), int64(len(text)), name)
		first, err := checkedRows(t, b)
		again, errAgain := checkedRows(t, b)
		require.Equal(t, first, again)
		require.Equal(t, err, errAgain)
		if err != nil {
			requireFault(t, err, "")
		}
	})
}

func checkedRows(t *testing.T, b *sheets.Book) (out [][]sheets.Cell, err error) {
	var last int32
	_, err = b.Rows(0, func(r *sheets.Row) error {
		require.Greater(t, r.Number, last)
		require.LessOrEqual(t, r.Number, int32(cell.MaxRow))
		last = r.Number
		checkCells(t, r.Cells)
		require.GreaterOrEqual(t, r.Width, r.Cells[len(r.Cells)-1].Col)
		for _, c := range r.Cells {
			require.True(t, c.Kind == sheets.Text && utf8.ValidString(c.Text) && !strings.Contains(c.Text, "\x00"))
		}
		out = append(out, append([]sheets.Cell(nil), r.Cells...))
		return nil
	})
	return out, err
}

// FuzzSeparatedWritten reads what the standard library writes, with each sign and each end of
// line, and finds the texts that were written.
func FuzzSeparatedWritten(f *testing.F) {
	f.Add("a", "b\"c", " d ", "e\nf", uint8(0), true)
	f.Add("1/4", "", "00417", "1E5", uint8(1), false)
	f.Add("a,b", "c;d", "e\tf", "\"", uint8(2), false)
	f.Fuzz(func(t *testing.T, a, b, c, d string, which uint8, crlf bool) {
		sign := []rune{',', ';', '\t'}[which%3]
		texts := []string{a, b, c, d}
		for i, text := range texts {
			// What the writer writes otherwise, or no text file can hold.
			text = strings.ReplaceAll(strings.ReplaceAll(strings.ToValidUTF8(text, ""), "\r", ""), "\x00", "")
			texts[i] = text
		}
		var out strings.Builder
		out.WriteString("sep=" + string(sign) + "\n")
		w := csv.NewWriter(&out)
		w.Comma, w.UseCRLF = sign, crlf
		require.NoError(t, w.WriteAll([][]string{texts, {texts[3], texts[2], texts[1], "end"}}))
		got, _, err := separatedRows("x.csv", out.String())
		require.NoError(t, err)
		for i, at := range []string{"A1", "B1", "C1", "D1"} {
			require.Equal(t, texts[i], got[at])
		}
		require.Equal(t, "end", got["D2"])
	})
}
