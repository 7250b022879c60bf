package measure

import (
	"errors"
	"math/big"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func rat(s string) *big.Rat {
	r, ok := new(big.Rat).SetString(s)
	if !ok {
		panic("rat: " + s)
	}
	return r
}

func parse(t *testing.T, text string) Size {
	t.Helper()
	s, err := ParseSize(text, Options{})
	require.NoError(t, err, text)
	return s
}

func TestParseSize(t *testing.T) {
	tests := []struct {
		text string
		of   LineKind
		unit Unit
		num  string
		wall string
	}{
		{"1/2 in", Tube, Inch, "1/2", ""},
		{`1/2"`, Tube, Inch, "1/2", ""},
		{`½"`, Tube, Inch, "1/2", ""},
		{"⅜ in", Tube, Inch, "3/8", ""},
		{"1 1/4 in", Tube, Inch, "5/4", ""},
		{"1-1/4 in", Tube, Inch, "5/4", ""},
		{"1 – 1/4 in", Tube, Inch, "5/4", ""},
		{"1½ in", Tube, Inch, "3/2", ""},
		{"5/4 in", Tube, Inch, "5/4", ""},
		{"0.5 in", Tube, Inch, "1/2", ""},
		{".5 in", Tube, Inch, "1/2", ""},
		{"12.7 mm", Tube, Millimetre, "127/10", ""},
		{"12.7mm", Tube, Millimetre, "127/10", ""},
		{"12.7\u00a0MM", Tube, Millimetre, "127/10", ""},
		{"12.7\u202fMillimetres", Tube, Millimetre, "127/10", ""},
		{"8 millimeter", Tube, Millimetre, "8", ""},
		{"8x1 mm", Tube, Millimetre, "8", "1"},
		{"8×1.5mm", Tube, Millimetre, "8", "3/2"},
		{"8 mm x 1 mm", Tube, Millimetre, "8", "1"},
		{"8mmx1mm", Tube, Millimetre, "8", "1"},
		{"1 1/4x1/16 in", Tube, Inch, "5/4", "1/16"},
		{"1/2 in hose", Hose, Inch, "1/2", ""},
		{"hose 1/2 in", Hose, Inch, "1/2", ""},
		{"1/2 hose in", Hose, Inch, "1/2", ""},
		{`1/2"hose`, Hose, Inch, "1/2", ""},
		{"1/2 in ID", Hose, Inch, "1/2", ""},
		{"1/2 in i.d. hose", Hose, Inch, "1/2", ""},
		{"1/2 in OD", Tube, Inch, "1/2", ""},
		{"tube, 1/2 in", Tube, Inch, "", ""}, // a comma is no part of a size
		{"1/2 in tube O.D.", Tube, Inch, "1/2", ""},
		{"8 mm tubing outside diameter", Tube, Millimetre, "8", ""},
		{"1/2″", Tube, Inch, "1/2", ""},
		{"1/2“", Tube, Inch, "1/2", ""},
		{"1/2”", Tube, Inch, "1/2", ""},
		{"1/2’’", Tube, Inch, "1/2", ""},
		{"1/2''", Tube, Inch, "1/2", ""},
		{"1⁄2 in.", Tube, Inch, "1/2", ""},
		{"1/2 Inches", Tube, Inch, "1/2", ""},
		{"1/2 INCH", Tube, Inch, "1/2", ""},
		{"1/2 in (12.7 mm)", Tube, Inch, "1/2", ""},
		{"8x1 mm (0.315 in)", Tube, Millimetre, "8", "1"},
		{"1/2 in hose (12.7 mm)", Hose, Inch, "1/2", ""},
		{"1/2 in (13 mm)", Tube, Inch, "1/2", ""}, // rounded, and no tube size of its own
		{"0.31496 in (8 mm)", Tube, Inch, "0.31496", ""},
		{"1/2 ′′", Tube, Inch, "1/2", ""},
		{`hose 1/2"`, Hose, Inch, "1/2", ""},
		{"1/2 in id", Hose, Inch, "1/2", ""},
		{"8 X 1 MM", Tube, Millimetre, "8", "1"},
	}
	for _, tt := range tests {
		s, err := ParseSize("  "+tt.text+" ", Options{})
		if tt.num == "" {
			assert.Error(t, err, tt.text)
			continue
		}
		require.NoError(t, err, tt.text)
		assert.Equal(t, tt.of, s.Line, tt.text)
		assert.Equal(t, tt.unit, s.Unit, tt.text)
		assert.Zero(t, s.Num.Cmp(rat(tt.num)), "%s is %s", tt.text, s.Num)
		assert.Equal(t, tt.text, s.Text)
		if tt.wall == "" {
			assert.Nil(t, s.Wall, tt.text)
		} else {
			require.NotNil(t, s.Wall, tt.text)
			assert.Zero(t, s.Wall.Cmp(rat(tt.wall)), "%s has wall %s", tt.text, s.Wall)
		}
	}
}

func TestRefused(t *testing.T) {
	tests := []struct{ text, sentence string }{
		{"", "a size is missing; write 1/2 in or 12.7 mm"},
		{"in", `"in": a size begins with a number; write 1/2 in or 12.7 mm`},
		{"1/2 or 3/8", `"1/2 or 3/8": or is not understood here; write 1/2 in, 12.7 mm, 8x1 mm or 1/2 in hose`},
		{"in 1/2", `"in 1/2": a size begins with a number; write 1/2 in or 12.7 mm`},
		{"1/2 in 3/8 in", `"1/2 in 3/8 in": 3 is not understood here; write 1/2 in, 12.7 mm, 8x1 mm or 1/2 in hose`},
		{"12,7 mm", `"12,7 mm": the comma is no decimal sign here; write 12.7, or set decimal to , in Settings if it is meant as one`},
		{"1,234.5 mm", `"1,234.5 mm": 1,234.5 has more than one decimal sign; write a number such as 12.7`},
		{"5. in", `"5. in": 5. has no digit behind its decimal sign; write a number such as 12.7`},
		{"1 5/4 in", `"1 5/4 in": a fraction after a whole number is less than 1; write 1 1/4 in or 5/4 in`},
		{"1 2 in", `"1 2 in": two numbers stand where one size belongs; write one size, such as 1 1/4 in`},
		{"1/2-3/4 in", `"1/2-3/4 in": the sign - is not understood here; write 1/2 in, 12.7 mm, 8x1 mm or 1/2 in hose`},
		{"1.5/2 in", `"1.5/2 in": a fraction has whole numbers above and below; write 1/2 in or 0.5 in`},
		{"1/0 in", `"1/0 in": a fraction cannot have 0 below; write 1/2 in`},
		{"1/ in", `"1/ in": a number is missing behind the /; write 1/2 in or 12.7 mm`},
		{"1/2/24", `"1/2/24": this has two / and looks like a date; write 1/2 in`},
		{"0 mm", `"0 mm": a size is more than 0; write 1/2 in or 12.7 mm`},
		{"-8 mm", `"-8 mm": a size is more than 0; write it without a minus`},
		{"−8 mm", `"−8 mm": a size is more than 0; write it without a minus`},
		{"0.001 mm", `"0.001 mm": less than 0.01 mm is no size of a line or part; write 1/2 in or 12.7 mm`},
		{"100001 mm", `"100001 mm": more than 100 m is no size of a line or part; write 1/2 in or 12.7 mm`},
		{"0.333333333333333333 mm", `"0.333333333333333333 mm": 0.333333333333333333 has more than 17 digits; write a size such as 12.7 mm`},
		{"1/2′", `"1/2′": a single mark stands for feet; write the size in inches or millimetres, such as 1/2 in`},
		{"1/2'''", `"1/2'''": a single mark stands for feet; write the size in inches or millimetres, such as 1/2 in`},
		{strings.Repeat("9", 200) + " mm", `"` + strings.Repeat("9", 32) + `…": this is too long for a size; write 1/2 in or 12.7 mm`},
		{"6'", `"6'": a single mark stands for feet; write the size in inches or millimetres, such as 1/2 in`},
		{"3 cm", `"3 cm": cm is not understood here; write 1/2 in, 12.7 mm, 8x1 mm or 1/2 in hose`},
		{"٣ mm", `"٣ mm": a size begins with a number; write 1/2 in or 12.7 mm`},
		{"8x4 mm", `"8x4 mm": a wall is less than half the outside diameter; write diameter x wall, such as 8x1 mm`},
		{"8x0 mm", `"8x0 mm": a wall is at least 0.01 mm; write diameter x wall, such as 8x1 mm`},
		{"8x mm", `"8x mm": a size begins with a number; write 1/2 in or 12.7 mm`},
		{"8 mm x 1/16 in", `"8 mm x 1/16 in": diameter and wall have different units; write both in one, such as 8x1 mm`},
		{"13x3 mm hose", `"13x3 mm hose": a hose is named by its inside diameter alone; write it without x and what follows`},
		{"1/2 in hose tube", `"1/2 in hose tube": this is called a tube and a hose; write tube (outside diameter) or hose (inside diameter)`},
		// 49 CFR 571.106, S4: hose by its inside, plastic tubing by its outside diameter.
		{`1/2" tube ID`, `1/2" tube ID: a tube is named by its outside diameter; write that, or hose for an inside diameter`},
		{"1/2 in hose OD", `"1/2 in hose OD": a hose is named by its inside diameter; write that, or tube for an outside diameter`},
		{"1/2 in od id", `"1/2 in od id": this is called an outside and an inside diameter; write tube (outside diameter) or hose (inside diameter)`},
		{"1/2 in (13 mm", `"1/2 in (13 mm": a bracket is not closed; write 1/2 in (12.7 mm)`},
		{"8 mm (5/16 in)", `"8 mm (5/16 in)": 8 mm and 5/16 in are not the same size; write the one that is meant`},
		{"1/2 in (13.7 mm)", `"1/2 in (13.7 mm)": 1/2 in and 13.7 mm are not the same size; write the one that is meant`},
		// A rounding of the other, and yet a size of its own: 127/128.
		{"5/16 in (8 mm)", `"5/16 in (8 mm)": 5/16 in and 8 mm are two sizes that do not fit each other; write the one that is meant`},
		{"1/2 in hose (13 mm)", `"1/2 in hose (13 mm)": 1/2 in and 13 mm are two sizes that do not fit each other; write the one that is meant`},
		{"1/2 in (hose)", `"1/2 in (hose)": a size begins with a number; write 1/2 in or 12.7 mm`},
		{"1/2 in (3)", `"1/2 in (3)": in brackets belongs the same diameter in the other unit, as in 1/2 in (12.7 mm)`},
	}
	for _, tt := range tests {
		s, err := ParseSize(tt.text, Options{})
		if assert.Error(t, err, tt.text) {
			assert.Equal(t, tt.sentence, err.Error())
			assert.NotErrorIs(t, err, ErrUnitless, tt.text)
		}
		assert.False(t, s.Known(), tt.text)
	}
}

func TestUnitless(t *testing.T) {
	for text, sentence := range map[string]string{
		"1/2":      `"1/2" has no unit; write 1/2 in`,
		"½":        `"½" has no unit; write ½ in`,
		"8x1":      `"8x1" has no unit; write 8x1 in or 8x1 mm`,
		"1/2 hose": `"1/2 hose" has no unit; write 1/2 in hose`,
		"12":       `"12" has no unit; write 12 in or 12 mm`,
	} {
		s, err := ParseSize(text, Options{})
		require.ErrorIs(t, err, ErrUnitless, text)
		assert.Equal(t, sentence, err.Error())
		assert.False(t, s.Equal(s), "a size without a unit equals nothing")
	}
	_, err := ParseSize("0", Options{})
	require.Error(t, err)
	assert.False(t, errors.Is(err, ErrUnitless), "0 is wrong whatever its unit")
}

func TestUnitFromHeader(t *testing.T) {
	tests := []struct {
		text string
		unit Unit
		want string
	}{
		{"1/2", Inch, "1/2 in"},
		{"8x1", Millimetre, "8x1 mm"},
		{"1/2 hose", Inch, "1/2 in hose"},
		{"1/2 in", Millimetre, "1/2 in"}, // its own unit holds
	}
	for _, tt := range tests {
		s, err := ParseSizeIn(tt.text, tt.unit, Options{})
		require.NoError(t, err, tt.text)
		assert.True(t, s.Equal(parse(t, tt.want)), tt.text)
		assert.Equal(t, tt.text, s.Text)
	}
	_, err := ParseSizeIn("1/2", NoUnit, Options{})
	assert.ErrorIs(t, err, ErrUnitless)
}

func TestDecimalComma(t *testing.T) {
	comma := Options{Comma: true}
	for _, text := range []string{"12,7 mm", "12.7 mm", "0,5 in", "0.500 in", "1/2 in", "12,700 mm"} {
		s, err := ParseSize(text, comma)
		require.NoError(t, err, text)
		assert.Zero(t, s.MM().Cmp(rat("12.7")), text)
	}
	_, err := ParseSize("1.250 mm", comma)
	assert.EqualError(t, err, `"1.250 mm": 1.250 may be read in two ways where the decimal sign is a comma; write 1,250 or 1250`)
}

func TestParseUnit(t *testing.T) {
	for text, want := range map[string]Unit{"in": Inch, " In. ": Inch, "inches": Inch, `"`: Inch, "MM": Millimetre, "millimeters": Millimetre,
		"cm": Centimetre, "lb": Pound, "ft-lb": PoundForceFoot, "lb·ft": PoundForceFoot, "N.m": NewtonMetre, "Nm": NewtonMetre,
		"lbs per sq. in.": PoundForcePerSquareInch, "in2": SquareInch, "in^3": CubicInch, "cu in": CubicInch, "°": Degree} {
		u, ok := ParseUnit(text)
		assert.True(t, ok, text)
		assert.Equal(t, want, u, text)
	}
	for _, text := range []string{"", "ton", "min", "mm mm", "12 mm"} {
		_, ok := ParseUnit(text)
		assert.False(t, ok, text)
	}
}

func FuzzParseSize(f *testing.F) {
	for _, s := range []string{"1/2 in", `1½"`, "8x1 mm (0.315 in)", "hose 3/8 in", "12,7 mm", "1-1/4''", "8mmx1mm", "1/2/24", "x", "(", "½½", "\xff1 in", "1e9 mm"} {
		f.Add(s, false)
		f.Add(s, true)
	}
	f.Fuzz(func(t *testing.T, text string, comma bool) {
		s, err := ParseSize(text, Options{Comma: comma})
		if err != nil {
			require.NotEmpty(t, err.Error())
			require.False(t, s.Known())
			return
		}
		require.True(t, s.Known())
		require.True(t, statesUnit(text), "%q states no unit and is read as %s", text, s)
		require.Positive(t, s.Num.Sign())
		back, err := ParseSize(s.String(), Options{})
		require.NoError(t, err, s.String())
		require.True(t, s.Equal(back), s.String())
	})
}

// statesUnit looks for a unit in a way of its own: any mark or letters that name one.
func statesUnit(text string) bool {
	marks := "\"″“”„‟＂〃"
	twice := strings.NewReplacer("′", "'", "’", "'", "‘", "'").Replace(text)
	bare := strings.ToLower(strings.ReplaceAll(text, ".", ""))
	return strings.ContainsAny(text, marks) || strings.Contains(twice, "''") ||
		strings.Contains(bare, "in") || strings.Contains(bare, "mm") || strings.Contains(bare, "milli")
}
