package finding

import (
	"fmt"
	"math/rand"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"ferrule/sheets/cell"
)

// drawn gives findings that have much in common.
func drawn() *rapid.Generator[*Finding] {
	sheets := [...]*cell.Sheet{{File: "a.xlsx", Name: "Parts"}, {File: "a.xlsx", Name: "Kits", Order: 1}, {File: "b.xlsx", Name: "Parts"}}
	few := func(t *rapid.T, label string) string {
		return rapid.SampledFrom([]string{"", "a", "b"}).Draw(t, label)
	}
	place := func(t *rapid.T) cell.Place {
		i := rapid.IntRange(-1, len(sheets)-1).Draw(t, "sheet")
		if i < 0 {
			return cell.Place{}
		}
		return cell.Place{Sheet: sheets[i], Pos: cell.Pos{Row: rapid.Int32Range(1, 2).Draw(t, "row"), Col: rapid.Int32Range(1, 2).Draw(t, "col")}}
	}
	return rapid.Custom(func(t *rapid.T) *Finding {
		f := &Finding{Code: Code(few(t, "code")), Severity: Severity(rapid.IntRange(0, 2).Draw(t, "severity")),
			Platform: few(t, "platform"), Position: few(t, "position"), Part: few(t, "part"), Message: few(t, "message")}
		for range rapid.IntRange(0, 2).Draw(t, "cells") {
			f.Cells = append(f.Cells, Cell{Place: place(t)})
		}
		if rapid.Bool().Draw(t, "accepted") {
			f.Accepted = &Accepted{Cell: place(t)}
		}
		return f
	})
}

func sign(n int) int { return min(max(n, -1), 1) }

func TestOrderIsTotal(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b, c := drawn().Draw(t, "a"), drawn().Draw(t, "b"), drawn().Draw(t, "c")
		require.Zero(t, Compare(a, a))
		require.Equal(t, sign(Compare(a, b)), -sign(Compare(b, a)))
		if Compare(a, b) <= 0 && Compare(b, c) <= 0 {
			require.LessOrEqual(t, Compare(a, c), 0)
		}
		if Compare(a, b) == 0 {
			require.Equal(t, a, b, "two findings that differ have an order")
		}
	})
}

// TestOrderSeesEverything holds that a finding which differs from another in one thing
// has an order to it.
func TestOrderSeesEverything(t *testing.T) {
	sheet := &cell.Sheet{File: "a.xlsx", Name: "Parts"}
	at := cell.Place{Sheet: sheet, Pos: cell.Pos{Row: 2, Col: 1}}
	whole := Finding{Code: "a", Severity: Warning, Message: "m", Platform: "H7", Position: "P", Part: "D", Cells: At(at), Accepted: &Accepted{Cell: at}}
	for name, change := range map[string]func(*Finding){
		"code":       func(f *Finding) { f.Code = "b" },
		"severity":   func(f *Finding) { f.Severity = Error },
		"message":    func(f *Finding) { f.Message = "n" },
		"platform":   func(f *Finding) { f.Platform = "H8" },
		"position":   func(f *Finding) { f.Position = "Q" },
		"part":       func(f *Finding) { f.Part = "E" },
		"cell":       func(f *Finding) { f.Cells = At(at.At(cell.Pos{Row: 2, Col: 2})) },
		"cells":      func(f *Finding) { f.Cells = At(at, at) },
		"accepted":   func(f *Finding) { f.Accepted = nil },
		"acceptance": func(f *Finding) { f.Accepted = &Accepted{Cell: at.At(cell.Pos{Row: 3, Col: 1})} },
	} {
		other := whole
		change(&other)
		assert.NotZero(t, Compare(&whole, &other), name)
		assert.Equal(t, sign(Compare(&whole, &other)), -sign(Compare(&other, &whole)), name)
	}
}

// TestSortForgetsTheOrder holds that findings come out alike however they were found.
func TestSortForgetsTheOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		fs := rapid.SliceOfN(drawn(), 0, 12).Draw(t, "findings")
		other := slices.Clone(fs)
		rand.New(rand.NewSource(rapid.Int64().Draw(t, "shuffle"))).Shuffle(len(other), func(i, j int) { other[i], other[j] = other[j], other[i] })
		Sort(fs)
		Sort(other)
		require.Equal(t, fs, other)
		require.True(t, slices.IsSortedFunc(fs, Compare))
	})
}

func TestSortKeepsEqualsInOrder(t *testing.T) {
	fs := []*Finding{{Code: "y"}}
	var want []string
	for i := range 100 {
		want = append(want, fmt.Sprint(i))
		fs = append(fs, &Finding{Code: Code("x"), Fix: want[i]}, &Finding{Code: "z"})
	}
	Sort(fs)
	var got []string
	for _, f := range fs[:100] {
		got = append(got, f.Fix)
	}
	assert.Equal(t, want, got)
}

func TestOrder(t *testing.T) {
	parts, kits := &cell.Sheet{File: "a.xlsx", Name: "Parts"}, &cell.Sheet{File: "a.xlsx", Name: "Kits", Order: 1}
	at := func(s *cell.Sheet, row, col int32) []Cell {
		return At(cell.Place{Sheet: s, Pos: cell.Pos{Row: row, Col: col}})
	}
	want := []*Finding{
		{Code: "z", Severity: Error, Platform: "A"},
		{Code: "z", Severity: Error, Platform: "B", Position: "P", Cells: at(parts, 2, 9)},
		{Code: "z", Severity: Error, Platform: "B", Position: "P", Cells: at(parts, 10, 1)},
		{Code: "z", Severity: Error, Platform: "B", Position: "P", Cells: at(kits, 1, 1)},
		{Code: "z", Severity: Error, Platform: "B", Position: "Q", Cells: at(parts, 1, 1)},
		{Code: "a", Severity: Warning},
		{Code: "a", Severity: Warning, Part: "D"},
		{Code: "b", Severity: Warning},
		{Code: "a", Severity: Note},
		{Code: "a", Severity: Error, Accepted: &Accepted{}},
	}
	got := slices.Clone(want)
	slices.Reverse(got)
	Sort(got)
	assert.Equal(t, want, got)
}

func TestCounting(t *testing.T) {
	fs := []*Finding{{Severity: Error}, {Severity: Note}, {Severity: Note}, {Severity: Warning}, {Severity: Error, Accepted: &Accepted{}}}
	assert.Equal(t, Summary{Errors: 1, Warnings: 1, Notes: 2, Accepted: 1}, Summarise(fs))
	for _, c := range []struct {
		fs    []*Finding
		worst Severity
		any   bool
	}{
		{nil, Note, false},
		{fs[4:], Note, false},
		{fs[1:2], Note, true},
		{fs[1:], Warning, true},
		{fs, Error, true},
	} {
		worst, any := Worst(c.fs)
		assert.Equal(t, c.worst, worst)
		assert.Equal(t, c.any, any)
	}
}
