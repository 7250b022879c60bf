package sheets

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Built-in formats by their numbers (ECMA-376 Part 1, 18.8.30).
func TestBuiltIn(t *testing.T) {
	for id, want := range map[int]string{
		0: "", 1: "0", 2: "0.00", 4: "#,##0.00", 9: "0%", 11: "0.00E+00", 12: "# ?/?", 13: "# ??/??",
		14: "mm-dd-yy", 15: "d-mmm-yy", 16: "d-mmm", 17: "mmm-yy", 18: "h:mm AM/PM", 20: "h:mm", 22: "m/d/yy h:mm",
		37: "#,##0 ;(#,##0)", 45: "mm:ss", 46: "[h]:mm:ss", 47: "mmss.0", 48: "##0.0E+0", 49: "@",
		23: "", 26: "", 59: "", 70: "", 82: "", 163: "", -1: "", 1 << 30: "",
	} {
		assert.Equal(t, want, builtIn(id), id)
	}
	for id := range 200 {
		dates := id >= 14 && id <= 22 || id >= 27 && id <= 36 || id >= 45 && id <= 47 || id >= 50 && id <= 58 || id >= 71 && id <= 81
		assert.Equal(t, dates, newFormat(builtIn(id)).date, id)
	}
}

func TestFormats(t *testing.T) {
	tests := []struct {
		code      string
		date, day bool
	}{
		{"General", false, false},
		{"GENERAL", false, false},
		{`General" mm"`, false, false},
		{"[Red]General;[Blue]-General", false, false},
		{"0.00", false, false},
		{"0.00E+00", false, false},
		{"##0.0e-0", false, false},
		{"# ?/?", false, false},
		{`0.0" days"`, false, false},
		{`0\d`, false, false},
		{`0_d`, false, false},
		{`0*d`, false, false},
		{"[Red]0.00", false, false},
		{"[$€-407] #,##0.00", false, false},
		{"[>=100]0;[<0]-0;0.0", false, false},
		{"@", false, false},
		{`"yyyy"`, false, false},
		{`"open`, false, false},
		{"[open", false, false},
		{"0.00 USD", false, false}, // letters beside digits are none of a date
		{"[DBNum1]0", false, false},
		{"", false, false},
		{"0;0;0;yyyy", false, false}, // the fourth section is for text
		{"yyyy-mm-dd", true, true},
		{"YYYY-MM-DD", true, true},
		{"d-mmm", true, true},
		{"mmm", true, true},
		{"[$-409]d/m/yyyy;@", true, true},
		{"[$-F800]dddd, mmmm dd, yyyy", true, true},
		{`[=0]"";yyyy-mm-dd`, true, true},
		{`yyyy"年"m"月"d"日"`, true, true},
		{"[$-411]ge.m.d", true, true},
		{"aaaa", true, true},
		{"hh:mm", true, false},
		{"h:mm AM/PM", true, false},
		{"h a/p", true, false},
		{"[h]:mm", true, false},
		{"[mm]:ss", true, false},
		{"[SS].000", true, false},
		{"mm:ss.000", true, false},
		{"mmss.0", true, false},
		{"yyyy-mm-dd hh:mm:ss.000", true, true},
	}
	for _, tt := range tests {
		got := newFormat(tt.code)
		assert.Equal(t, tt.date, got.date, "%s is a date", tt.code)
		assert.Equal(t, tt.day, got.day, "%s names a day", tt.code)
	}
	assert.Equal(t, "", newFormat("general").code)
	assert.Equal(t, "0.0", newFormat("0.0").code)
}

func FuzzFormat(f *testing.F) {
	for _, code := range []string{"General", `yyyy\-mm\-dd`, "[h]:mm;@", `"`, "[", `\`, "_", "*", "ss.00", ";;;"} {
		f.Add(code)
	}
	f.Fuzz(func(t *testing.T, code string) {
		if got := newFormat(code); got.day && !got.date {
			t.Errorf("%q names a day and is no date", code)
		}
	})
}
