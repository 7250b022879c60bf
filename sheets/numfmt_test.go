package sheets

import (
	"slices"
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
		{"Standard", false, false}, // what General is called in several languages
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
		assert.Equal(t, tt.day, dayIn(got), "%s names a day", tt.code)
	}
	assert.Equal(t, "", newFormat("general").code)
	assert.Equal(t, "0.0", newFormat("0.0").code)
}

func FuzzFormat(f *testing.F) {
	for _, code := range []string{"General", `yyyy\-mm\-dd`, "[h]:mm;@", `"`, "[", `\`, "_", "*", "ss.00", ";;;"} {
		f.Add(code)
	}
	f.Fuzz(func(t *testing.T, code string) {
		if got := newFormat(code); dayIn(got) && !got.date {
			t.Errorf("%q names a day and is no date", code)
		}
	})
}

// A format's sections are for different numbers (ECMA-376 Part 1, 18.8.31).
func TestSections(t *testing.T) {
	tests := []struct {
		code string
		of   float64
		want string // "" for a number
	}{
		{"0;;d", 1, ""}, {"0;;d", -1, ""}, {"0;;d", 0, "00:00:00"},
		{"d;0", 45293, "2024-01-02"}, {"d;0", 0, "00:00:00"}, {"d;0", -45293, ""},
		{"0.00;[Red]d", 45293, ""}, {"d;@", 45293, "2024-01-02"}, {"@;d", 45293, ""},
		{"d;0;0;@", 45293, "2024-01-02"}, {"0;0;0;d", 45293, ""},
		{"[>=100]0;d", 100, ""}, {"[>=100]0;d", 99, "1900-04-08"},
		{"[<1]0.0;m/d/yy", 0.5, ""}, {"[<1]0.0;m/d/yy", 45293, "2024-01-02"},
		{"[=1]d;[=2]0;d", 1, "1900-01-01"}, {"[=1]d;[=2]0;d", 2, ""}, {"[=1]d;[=2]0;d", 3, "1900-01-03"},
		{"[<>1]d;0", 1, ""}, {"[<>1]d;0", 2, "1900-01-02"},
		{"[>1]0;[<=-1]0;d", 1, "1900-01-01"}, {"[Red][>=2]d;0", 3, "1900-01-03"}, {"[>=x]d", 3, "1900-01-03"},
		{"[h]:mm", 1.5, "36:00:00"}, {"[h]:mm;0", 1.5, "36:00:00"}, {"[mm]:ss", 1.5, "36:00:00"}, {"yyyy [h]", 45293, "2024-01-02"},
		{"", 45293, ""}, {"General", 45293, ""},
	}
	for _, tt := range tests {
		got, _ := (&typer{book: &packed{}}).date(tt.of, newFormat(tt.code))
		assert.Equal(t, tt.want, got, "%s of %v", tt.code, tt.of)
	}
}

func dayIn(f numFormat) bool {
	return slices.ContainsFunc(f.sections, func(s section) bool { return s.dates() && s.dated() })
}
