package propose_test

import (
	"bytes"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/tools/txtar"

	"ferrule/compiler/propose"
	"ferrule/out/markup"
	"ferrule/sheets"
)

var update = flag.Bool("update", false, "write golden files anew")

// open makes the workbook that a text describes, and opens it.
func open(t testing.TB, text []byte) (string, *sheets.Book) {
	t.Helper()
	books, err := markup.Books(text)
	require.NoError(t, err)
	require.Len(t, books, 1)
	return books[0].Name, written(t, books[0])
}

// written writes a workbook and opens it.
func written(t testing.TB, b markup.Book) *sheets.Book {
	t.Helper()
	var out bytes.Buffer
	require.NoError(t, b.Write(&out, markup.Options{Plain: true}))
	book, err := sheets.Read(bytes.NewReader(out.Bytes()), int64(out.Len()))
	require.NoError(t, err)
	return book
}

// lookAt looks at a workbook without a catalogue.
func lookAt(t testing.TB, b markup.Book) *propose.Proposal {
	t.Helper()
	p, err := propose.Look(b.Name, written(t, b), propose.NewNames(nil))
	require.NoError(t, err)
	return p
}

// TestShapes holds the proposal for each workbook below testdata/shapes against the one beside it.
func TestShapes(t *testing.T) {
	files, err := filepath.Glob("testdata/shapes/*.txtar")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, file := range files {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".txtar"), func(t *testing.T) {
			text, err := os.ReadFile(file)
			require.NoError(t, err)
			name, book := open(t, text)
			p, err := propose.Look(name, book, propose.NewNames(nil))
			require.NoError(t, err)
			again, err := propose.Look(name, book, propose.NewNames(nil))
			require.NoError(t, err)
			assert.Equal(t, p, again, "the same workbook gives the same proposal")
			golden(t, file, text, said(p))
		})
	}
}

// golden holds the file proposal.txt of an archive against what is said now.
func golden(t *testing.T, file string, text []byte, said string) {
	t.Helper()
	a := txtar.Parse(text)
	want, at := "", len(a.Files)
	for i, f := range a.Files {
		if f.Name == "proposal.txt" {
			want, at = string(f.Data), i
		}
	}
	if *update {
		a.Files = append(a.Files[:at], txtar.File{Name: "proposal.txt", Data: []byte(said)})
		require.NoError(t, os.WriteFile(file, txtar.Format(a), 0o644))
		return
	}
	assert.Equal(t, want, said)
}

// said writes a proposal as a text, a line for each thing.
func said(p *propose.Proposal) string {
	var b strings.Builder
	sheet := ""
	for _, r := range p.Rules {
		if r.Sheet != sheet {
			sheet = r.Sheet
			fmt.Fprintf(&b, "%s\n", sheet)
		}
		fmt.Fprintf(&b, "  %s | %s | %s (%s)\n", r.Word, r.Where, r.As, r.Sure)
	}
	for _, r := range p.Remarks {
		fmt.Fprintf(&b, "remark %v of %d: %s\n  %s\n  write %s\n", r.Cells, r.N, r.Says, r.Means, r.Write)
	}
	for _, d := range p.Drafts {
		fmt.Fprintf(&b, "draft %s: %s\n", d.Kind, strings.Join(d.Columns, " | "))
		for _, row := range d.Rows {
			fmt.Fprintf(&b, "  %s\n", strings.Join(row, " | "))
		}
	}
	for _, s := range p.Seen {
		fmt.Fprintf(&b, "seen %s: %d tables, %d of %d filled cells claimed: %s\n", s.Sheet, s.Tables, s.Claimed, s.Filled, s.What)
	}
	for _, t := range p.Told {
		fmt.Fprintf(&b, "told %v: %s; %s\n", t.Cells, t.Message, t.Fix)
	}
	for _, v := range p.Preview {
		fmt.Fprintf(&b, "preview %s: %s\n", v.Kind, strings.Join(v.Columns, " | "))
		for _, row := range v.Rows {
			fmt.Fprintf(&b, "  %s\n", strings.Join(row.Texts, " | "))
		}
	}
	return b.String()
}
