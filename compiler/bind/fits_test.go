package bind

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"ferrule/compiler/bind/lexicon"
	"ferrule/compiler/finding"
	"ferrule/compiler/intake/table"
	"ferrule/compiler/model"
	"ferrule/sheets/cell"
)

// awkward are numbers that look like something else.
var awkward = [...]string{"D-1", "D-2", "none-5", "none 6", "ask", "2 x 4", "L or R", "A, B", "C+2", "-7", "with it", "007"}

// knowing gives a binder that knows parts, a kit K-1 and a position; told gathers what
// it reports.
func knowing(parts ...string) (b *binder, told *[]*finding.Finding) {
	told = &[]*finding.Finding{}
	b = &binder{
		Input: Input{Report: func(f *finding.Finding) { *told = append(*told, f) }},
		cat:   &model.Catalogue{}, lexicon: lexicon.New(lexicon.Unknowable{}),
		kinds:  map[string][]*table.Table{"parts": {{Headed: true}}, "positions": {{Headed: true}}},
		absent: map[string]int{},
	}
	for _, n := range parts {
		b.lexicon.AddPart(&model.Part{Number: n, Known: true})
	}
	b.lexicon.AddPart(&model.Part{Number: "K-1", Known: true, Contents: []model.Component{{Part: &model.Part{Number: "D-1"}, Quantity: 1}}})
	b.lexicon.Positions.Add("Drive damper", &model.Position{Name: "Drive damper"})
	return b, told
}

// printed writes a cell with every quantity that is not the position's.
func printed(f *model.Fits) string {
	switch {
	case f == nil:
		return "unreadable"
	case f.With != nil:
		return "with " + f.With.Name
	case f.Outcome != model.Fitted:
		return strings.TrimSuffix(f.Outcome.String()+": "+f.Text, ": ")
	}
	var alternatives []string
	for _, a := range f.Alternatives {
		var items []string
		for _, i := range a {
			s := "[" + i.Part.Number + "]"
			if i.Quantity > 0 {
				s = fmt.Sprintf("%d x %s", i.Quantity, s)
			}
			items = append(items, s)
		}
		alternatives = append(alternatives, strings.Join(items, " + "))
	}
	return strings.Join(alternatives, " or ")
}

func TestFits(t *testing.T) {
	for text, want := range map[string]string{
		"D-1":                    "[D-1]",
		"  d-1 ":                 "[D-1]",
		"3 x D-1":                "3 x [D-1]",
		"3x D-1":                 "3 x [D-1]",
		"3 × D-1":                "3 x [D-1]",
		"3  X  D-1":              "3 x [D-1]",
		"K-1":                    "1 x [K-1]",
		"2 x K-1":                "2 x [K-1]",
		"D-1 or D-2":             "[D-1] or [D-2]",
		"D-1 OR\tD-2":            "[D-1] or [D-2]",
		"D-1\u00a0or\u00a0D-2":   "[D-1] or [D-2]", // spaces that do not break
		"3\u00a0x\u00a0D-1":      "3 x [D-1]",
		"none\u00a0no room":      "none: no room",
		"with\u00a0Drive damper": "with Drive damper",
		"D-1 + D-2":              "1 x [D-1] + 1 x [D-2]",
		"D-1+D-2":                "1 x [D-1] + 1 x [D-2]",
		"2 x D-1 + D-2 or D-2":   "2 x [D-1] + 1 x [D-2] or [D-2]",
		"none-5":                 "[none-5]",
		"None-5 or D-1":          "[none-5] or [D-1]",
		"none 6":                 "[none 6]",
		"ask":                    "[ask]",
		"2 x 4":                  "[2 x 4]",
		"3 x 2 x 4":              "3 x [2 x 4]",
		"l or r":                 "[L or R]",
		"a, b":                   "[A, B]",
		"C+2":                    "[C+2]",
		"C+2 or D-1":             "[C+2] or [D-1]",
		"-7":                     "[-7]",
		"with it":                "[with it]",
		"none":                   "none",
		"NONE: no mounts":        "none: no mounts",
		"none no mounts":         "none: no mounts",
		"none - no mounts":       "none: no mounts",
		"none (no mounts)":       "none: no mounts",
		"none, or is it?":        "none: or is it?",
		"None\nno mounts":        "none: no mounts",
		"planned":                "planned",
		"tbd: in spring":         "planned: in spring",
		"ask the length (eyes)":  "ask: the length (eyes)",
		"with Drive damper":      "with Drive damper",
		"WITH  drive  damper":    "with Drive damper",
	} {
		b, told := knowing(awkward[:]...)
		assert.Equal(t, want, printed(b.fits(text, cell.Place{}).Fits), "%q", text)
		assert.Empty(t, *told, "%q", text)
	}
}

func TestFitsRefuses(t *testing.T) {
	for _, c := range []struct {
		text, says string
		code       finding.Code
	}{
		{"-", "write none and the reason", finding.FitmentMalformed},
		{"—", "write none and the reason", finding.FitmentMalformed},
		{"n/a", "write none and the reason", finding.FitmentMalformed},
		{"D-1, D-2", `"D-1 or D-2" for a choice, or "D-1 \+ D-2"`, finding.FitmentMalformed},
		{"D-1; D-2", `"D-1 or D-2" for a choice, or "D-1 \+ D-2"`, finding.FitmentMalformed},
		{"D-1\nD-2", `line break.*"D-1 or D-2" for a choice, or "D-1 \+ D-2"`, finding.FitmentMalformed},
		{"D-1 or", "one side of or", finding.FitmentMalformed},
		{"or D-1", "one side of or", finding.FitmentMalformed},
		{"D-1 +", `one side of \+`, finding.FitmentMalformed},
		{"+", `one side of \+`, finding.FitmentMalformed},
		{"D-1 + -", "a dash is no part", finding.FitmentMalformed},
		{"0 x D-1", "whole number from 1", finding.FitmentMalformed},
		{"99999999999999999999 x D-1", "whole number from 1", finding.FitmentMalformed},
		{"D-1 or none", "none stands alone", finding.FitmentMalformed},
		{"D-1 + planned soon", "planned stands alone", finding.FitmentMalformed},
		{"D-1 or with Drive damper", "with and a position stand alone", finding.FitmentMalformed},
		{"with Drive dampr", "did you mean Drive damper", finding.ReferenceUnknown},
	} {
		b, told := knowing("D-1", "D-2")
		assert.Nil(t, b.fits(c.text, cell.Place{}).Fits, "%q", c.text)
		if assert.Len(t, *told, 1, "%q", c.text) {
			assert.Equal(t, c.code, (*told)[0].Code, "%q", c.text)
			assert.Regexp(t, c.says, (*told)[0].Message, "%q", c.text)
		}
	}
}

// TestFitsUnknown holds that a number that nothing declares is told and still decides,
// and that one number is one part.
func TestFitsUnknown(t *testing.T) {
	for text, says := range map[string]string{
		"D-l":        "did you mean D-1",
		"2xD-1":      "with x and a space: write 2 x D-1",
		"7":          "00?7.*leading zeros",
		"12.5":       "12.50 is.*the number 12.5: .* type 12.50",
		"1200000":    "12E5 is.*the number 1200000: .* type 12E5",
		"D–1":        `did you mean D-1\? It looks the same, but U\+2013 stands here and U\+002D there`,
		"nonesuch-9": `"nonesuch-9"`,
		"8.5":        "a quantity is a whole number",
	} {
		b, told := knowing("D-1", "007", "12.50", "12E5", "8E5", "E-3", "F-4", "G-5", "H-6")
		got := b.fits(text, cell.Place{}).Fits
		require.NotNil(t, got, "%q", text)
		assert.Equal(t, model.Fitted, got.Outcome)
		assert.False(t, got.Alternatives[0][0].Part.Known)
		require.Len(t, *told, 1, "%q", text)
		assert.Regexp(t, says, (*told)[0].Message, "%q", text)
		assert.Same(t, got.Alternatives[0][0].Part, b.fits(strings.ToUpper(text), cell.Place{}).Fits.Alternatives[0][0].Part)
	}
}

// TestFitsReadBack prints cells and reads them again. Where a number holds a separator
// of cells it stands alone.
func TestFitsReadBack(t *testing.T) {
	plain := []string{"D-1", "D-2", "none-5", "2 x 4", "-7", "007", "K-1"}
	b, told := knowing(awkward[:]...)
	rapid.Check(t, func(t *rapid.T) {
		want := &model.Fits{}
		want.Outcome = model.Fitted
		var words []string
		for range rapid.IntRange(1, 3).Draw(t, "alternatives") {
			var a model.Alternative
			var items []string
			n := rapid.IntRange(1, 3).Draw(t, "items")
			for range n {
				p, ok := b.lexicon.Part(rapid.SampledFrom(plain).Draw(t, "part"))
				require.True(t, ok)
				item, said := model.Item{Part: p, Quantity: rapid.IntRange(0, 12).Draw(t, "quantity")}, p.Number
				switch {
				case item.Quantity > 0:
					said = fmt.Sprintf("%d x %s", item.Quantity, p.Number)
				case n > 1 || p.Kit():
					item.Quantity = 1
				}
				a, items = append(a, item), append(items, said)
			}
			want.Alternatives = append(want.Alternatives, a)
			words = append(words, strings.Join(items, rapid.SampledFrom([]string{"+", " + ", "  +"}).Draw(t, "plus")))
		}
		text := strings.Join(words, rapid.SampledFrom([]string{" or ", "  OR  "}).Draw(t, "or"))
		got := b.fits(text, cell.Place{}).Fits
		require.Equal(t, printed(want), printed(got), "%q", text)
		require.Equal(t, want.Key(2), got.Key(2))
		require.Empty(t, *told)
	})
}

// TestFitsNeverPanics holds that whatever stands in a cell is read, or told.
func TestFitsNeverPanics(t *testing.T) {
	pieces := rapid.SampledFrom([]string{"D-1", "K-1", "none", "tbd", "ask", "with", "Drive damper", "2", "x", "+", "or", " ", " ", ",", "\n", "-", "(", ")", "é", "\x00", "99999999999"})
	rapid.Check(t, func(t *rapid.T) {
		b, told := knowing("D-1")
		text := strings.Join(rapid.SliceOfN(pieces, 1, 10).Draw(t, "pieces"), "")
		if strings.TrimSpace(text) == "" {
			return
		}
		got := b.fits(text, cell.Place{}).Fits
		if got == nil {
			require.NotEmpty(t, *told, "%q", text)
			return
		}
		require.Equal(t, got.Outcome == model.Fitted, got.With != nil || len(got.Alternatives) > 0, "%q", text)
		for _, a := range got.Alternatives {
			require.NotEmpty(t, a)
			for _, i := range a {
				require.True(t, i.Part.Known || len(*told) > 0, "%q", text)
			}
		}
	})
}
