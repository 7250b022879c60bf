package compiler_test

import (
	"context"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/tools/txtar"

	"ferrule/compiler"
	"ferrule/compiler/finding"
	"ferrule/out/markup"
)

// A compiler that stays reads a sheet anew by rows of Layouts that have changed, and one whose
// own cells have.
func TestResidentWithLayouts(t *testing.T) {
	a, err := txtar.ParseFile("testdata/twins/grades.txtar")
	require.NoError(t, err)
	base, err := txtar.ParseFile("testdata/twins/base.txtar")
	require.NoError(t, err)
	dir := t.TempDir()
	write := func(change func(string) string) {
		out := &txtar.Archive{Files: base.Files}
		for _, f := range a.Files {
			if name, ok := strings.CutPrefix(f.Name, "laid/"); ok {
				out.Files = append(out.Files, txtar.File{Name: strings.Replace(name, "c.xlsx/Layouts", "l.xlsx/Layouts", 1), Data: []byte(change(string(f.Data)))})
			}
		}
		books, err := markup.Books(txtar.Format(out))
		require.NoError(t, err)
		require.NoError(t, markup.WriteAll(dir, books, markup.Options{Plain: true}))
	}
	var stays compiler.Resident
	for _, change := range []func(string) string{
		func(s string) string { return s },
		func(s string) string { return strings.Replace(s, "Front axle = Drum", "Front axle = Disc", 1) },
		func(s string) string { return strings.Replace(s, "Chart\tmark\tx\tor\n", "", 1) },
		func(s string) string { return strings.Replace(s, "\tHD-30\t\tx\tx", "\tHD-30\t\tz\tx", 1) },
		func(s string) string {
			return strings.Replace(s, "Chart\ttable", "Chart\tskip\trow \"none\"\t\nChart\ttable", 1)
		},
		func(s string) string { return s },
	} {
		write(change)
		o := compiler.Options{Today: "2027-03-01"}
		want, err := compiler.Compile(context.Background(), compiler.Input{Paths: []string{dir}}, o)
		require.NoError(t, err)
		got, err := stays.Compile(context.Background(), compiler.Input{Paths: []string{dir}}, o)
		require.NoError(t, err)
		assert.Equal(t, toldOf(want.Findings), toldOf(got.Findings))
	}
}

func toldOf(fs []*finding.Finding) []string {
	var out []string
	for _, f := range fs {
		s := line(f)
		for _, c := range f.Cells {
			s += " " + c.Place.String() + " " + c.Note
		}
		out = append(out, s)
	}
	return out
}

// What cannot be understood of a laid-out cell is told there, with the row of Layouts beside it,
// and of a number that is marked in many places once, at the number.
func TestFindingsPointAtOldCells(t *testing.T) {
	a := txtar.Parse([]byte(`-- laid/c.xlsx/Chart --
Number	Axle	H7	H9	K1
HD-1O	Drum	x	x	
HD-20	Drums	x		x
-- laid/c.xlsx/Layouts --
Sheet	Word	Where	As
Chart	table	header 1	Fitment
Chart	is	Number	Part
Chart	is	Axle	Front axle
Chart	is	"Front damper"	Position
Chart	across	H7 … K1	Platform
Chart	mark	x	this row
`))
	res := twin(t, a, "laid/")
	var got []string
	for _, f := range res.Findings {
		if f.Severity != finding.Error || f.Code == finding.CoverageGap {
			continue
		}
		require.Greater(t, len(f.Cells), 1, line(f))
		got = append(got, string(f.Code)+" "+f.Cells[0].Place.String()+" "+f.Cells[1].Place.String())
	}
	assert.Equal(t, []string{
		"part-unknown c.xlsx:Chart!A2 c.xlsx:Layouts!D3",
		"reference-unknown c.xlsx:Chart!E1 c.xlsx:Layouts!D6",
		"reference-unknown c.xlsx:Chart!B3 c.xlsx:Layouts!D4",
	}, got)
}
