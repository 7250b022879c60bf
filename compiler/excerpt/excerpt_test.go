package excerpt_test

import (
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/excerpt"
	"ferrule/compiler/tidy"
	"ferrule/out/workbook"
	"ferrule/sheets/cell"
)

// wide makes a sheet of rows and columns whose cells say where they stand, below a header; some are blank.
func wide(t *testing.T, rows, columns int, blank map[string]bool) string {
	t.Helper()
	dir := t.TempDir()
	s := tidy.Sheet{Name: "Fitment"}
	for r := range rows {
		row := make([]string, columns)
		for c := range columns {
			at := cell.Pos{Row: int32(r + 1), Col: int32(c + 1)}.String()
			if !blank[at] {
				row[c] = "at " + at
			}
		}
		s.Rows = append(s.Rows, row)
	}
	require.NoError(t, workbook.Write(dir, []tidy.Sheet{s}))
	return filepath.Join(dir, workbook.Name)
}

func place(t *testing.T, sheet, at string) cell.Place {
	t.Helper()
	pos, ok := cell.Parse(at)
	require.True(t, ok)
	return cell.Place{Sheet: &cell.Sheet{File: workbook.Name, Name: sheet}, Pos: pos}
}

// lay writes an excerpt as lines: the columns, then the rows, the marked cell in brackets.
func lay(e *excerpt.Excerpt) []string {
	lines := []string{strings.Join(e.Letters(), " ")}
	for _, r := range e.Rows {
		line := strconv.Itoa(int(r.Number))
		if r.Header {
			line += " header"
		}
		for _, c := range r.Cells {
			text := c.Text
			if c.Marked {
				text = "[" + text + "]"
			}
			line += "|" + strings.TrimPrefix(text, "at ")
		}
		lines = append(lines, line)
	}
	return lines
}

func TestExcerpts(t *testing.T) {
	path := wide(t, 9, 3, map[string]bool{"B5": true, "A8": true, "B8": true, "C8": true})
	for name, c := range map[string]struct {
		at     string
		header int32
		want   []string
	}{
		"a header further up":    {"B6", 1, []string{"A B C", "1 header|A1|B1|C1", "4|A4|B4|C4", "5|A5||C5", "6|A6|[at B6]|C6", "7|A7|B7|C7"}},
		"a header among them":    {"A2", 1, []string{"A B C", "1 header|A1|B1|C1", "2|[at A2]|B2|C2", "3|A3|B3|C3", "4|A4|B4|C4"}},
		"no header":              {"C4", 0, []string{"A B C", "2|A2|B2|C2", "3|A3|B3|C3", "4|A4|B4|[at C4]", "5|A5||C5", "6|A6|B6|C6"}},
		"a blank cell":           {"B5", 0, []string{"A B C", "3|A3|B3|C3", "4|A4|B4|C4", "5|A5|[]|C5", "6|A6|B6|C6", "7|A7|B7|C7"}},
		"a blank row":            {"B8", 0, []string{"A B C", "6|A6|B6|C6", "7|A7|B7|C7", "8||[]|", "9|A9|B9|C9"}},
		"beyond all that stands": {"E20", 0, []string{"E", "20|[]"}},
	} {
		at := place(t, "Fitment", c.at)
		got, err := excerpt.Book(path, []excerpt.Want{{At: at, Header: c.header}})
		require.NoError(t, err, name)
		require.Contains(t, got, at, name)
		assert.Equal(t, c.want, lay(got[at]), name)
	}
}

// Of a wide sheet the first column is shown, which says what a row is about, and those around the cell.
func TestWideSheets(t *testing.T) {
	path := wide(t, 1, 30, nil)
	for at, want := range map[string]string{
		"A1":  "A B C D E F G H I J K L",
		"C1":  "A B C D E F G H I J K L",
		"P1":  "A J K L M N O P Q R S T",
		"AD1": "A T U V W X Y Z AA AB AC AD",
	} {
		at := place(t, "Fitment", at)
		got, err := excerpt.Book(path, []excerpt.Want{{At: at}})
		require.NoError(t, err)
		assert.Equal(t, want, strings.Join(got[at].Letters(), " "), at)
		assert.Contains(t, strings.Join(lay(got[at]), "\n"), "[at "+at.Pos.String()+"]")
	}
}

func TestWhatIsNotThere(t *testing.T) {
	path := wide(t, 3, 3, nil)
	gone, here := place(t, "Parts", "A1"), place(t, "Fitment", "A1")
	got, err := excerpt.Book(path, []excerpt.Want{{At: gone}, {At: here}})
	require.NoError(t, err)
	assert.NotContains(t, got, gone, "a sheet that is gone has no rows")
	assert.Contains(t, got, here)
	_, err = excerpt.Book(filepath.Join(t.TempDir(), "gone.xlsx"), []excerpt.Want{{At: here}})
	assert.Error(t, err)
}
