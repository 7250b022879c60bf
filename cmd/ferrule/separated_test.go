package main

import (
	"encoding/binary"
	"encoding/csv"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf16"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/out/markup"
)

// TestSeparatedTwins holds that the demo catalogue is published the same, byte for byte, from
// text files: with commas, with semicolons in UTF-16, and with tabs. The files are written by the
// standard library.
func TestSeparatedTwins(t *testing.T) {
	want := published(build(t, filepath.Join("..", "..", "testdata", "demo")))
	require.Greater(t, len(want), 100)
	for ending, comma := range map[string]rune{".csv": ',', ".CSV": ';', ".tsv": '\t'} {
		t.Run(ending+string(comma), func(t *testing.T) {
			dir := t.TempDir()
			require.NoError(t, os.CopyFS(filepath.Join(dir, "pictures"), os.DirFS("../../testdata/demo/pictures")))
			for _, b := range demoBooks(t) {
				for i := range b.Sheets {
					text := separated(t, &b.Sheets[i], comma)
					if comma == ';' {
						text = wide(text)
					}
					require.NoError(t, os.WriteFile(filepath.Join(dir, b.Sheets[i].Name+ending), []byte(text), 0o600))
				}
			}
			got := published(build(t, dir))
			for name, text := range want {
				assert.True(t, text == got[name], "%s is another", name)
			}
			assert.Len(t, got, len(want))
		})
	}
}

// published gives what a build writes for the world.
func published(files map[string]string) map[string]string {
	out := map[string]string{}
	for name, text := range files {
		if strings.HasPrefix(name, "public/") {
			out[name] = text
		}
	}
	return out
}

func demoBooks(t *testing.T) (out []markup.Book) {
	t.Helper()
	sources, err := filepath.Glob("../../testdata/demo/source/*.txtar")
	require.NoError(t, err)
	for _, name := range sources {
		data, err := os.ReadFile(name)
		require.NoError(t, err)
		books, err := markup.Books(data)
		require.NoError(t, err)
		out = append(out, books...)
	}
	require.Len(t, out, 3)
	return out
}

// separated writes the texts of a sheet as a text file.
func separated(t *testing.T, s *markup.Sheet, comma rune) string {
	t.Helper()
	var out strings.Builder
	w := csv.NewWriter(&out)
	w.Comma, w.UseCRLF = comma, true
	width := 0
	for _, row := range s.Rows {
		width = max(width, len(row))
	}
	for _, row := range s.Rows {
		cells := make([]string, width) // as spreadsheet programs write it: all rows have as many
		for i, c := range row {
			cells[i] = c.Text
		}
		require.NoError(t, w.Write(cells))
	}
	w.Flush()
	require.NoError(t, w.Error())
	return out.String()
}

func wide(text string) string {
	out := []byte{0xff, 0xfe}
	for _, u := range utf16.Encode([]rune(text)) {
		out = binary.LittleEndian.AppendUint16(out, u)
	}
	return string(out)
}
