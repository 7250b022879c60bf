package sheets

import (
	"slices"
	"strings"
	"unicode/utf8"
)

// numFormat is a number format and how it shows numbers as dates or times.
type numFormat struct {
	code string // "" for General
	date bool   // shows some numbers as dates or times
	// sections are those for numbers, where date; which of them decides follows from the
	// number.
	sections []section
}

// newFormat looks through a format's code (ECMA-376 Part 1, 18.8.31). A code may have
// up to four sections, for positive, negative and zero numbers and for text, or for what
// they state themselves.
func newFormat(code string) numFormat {
	f := numFormat{code: code}
	if strings.EqualFold(code, "General") {
		f.code = ""
	}
	all := sections(code)
	if slices.ContainsFunc(all, func(s section) bool { return s.dates() }) {
		f.date, f.sections = true, all
	}
	return f
}

// read goes through one section and gives the code after its semicolon; more tells
// whether there was one.
func (s *section) read(code string) (rest string, more bool) {
	for code != "" {
		n := 1
		switch c := code[0]; c {
		case ';':
			return code[1:], true
		case '"':
			n = 1 + upTo(code[1:], '"')
		case '[':
			n = 1 + upTo(code[1:], ']')
			s.bracket(strings.TrimSuffix(code[1:n], "]"))
		case '\\', '_', '*':
			_, next := utf8.DecodeRuneInString(code[1:])
			n = 1 + next
		case '0', '#', '?':
			s.digits = true
		case '@':
			s.text = true
		case '.':
			if s.clock {
				n = 1 + zeros(code[1:])
			}
		default:
			n = s.letter(code)
		}
		code = code[n:]
	}
	return "", false
}

// letter takes one letter, or a word that stands for something of its own.
func (s *section) letter(code string) int {
	for _, word := range []string{"General", "Standard"} { // Standard: some programs write their own language
		if hasFold(code, word) {
			return len(word)
		}
	}
	if hasFold(code, "AM/PM") {
		s.letters, s.clock = true, true
		return len("AM/PM")
	}
	if hasFold(code, "A/P") {
		s.letters, s.clock = true, true
		return len("A/P")
	}
	switch code[0] | 0x20 {
	case 'e':
		if len(code) > 1 && (code[1] == '+' || code[1] == '-') {
			return 2 // an exponent
		}
		s.letters, s.day = true, true
	case 'y', 'd', 'g', 'b', 'a':
		s.letters, s.day = true, true
	case 'm':
		s.letters, s.month = true, true
	case 'h', 's':
		s.letters, s.clock = true, true
	}
	return 1
}

// bracket tells elapsed time, [h], [mm], and conditions from colours, currencies and locales.
func (s *section) bracket(inside string) {
	if c, ok := parseCondition(inside); ok {
		s.when = c
		return
	}
	if inside == "" || strings.Trim(inside, "hH") != "" && strings.Trim(inside, "mM") != "" && strings.Trim(inside, "sS") != "" {
		return
	}
	s.letters, s.clock, s.elapsed = true, true, true
}

// upTo gives the length up to and with the byte end, or all of code.
func upTo(code string, end byte) int {
	if i := strings.IndexByte(code, end); i >= 0 {
		return i + 1
	}
	return len(code)
}

func zeros(code string) int { return len(code) - len(strings.TrimLeft(code, "0")) }

func hasFold(code, word string) bool {
	return len(code) >= len(word) && strings.EqualFold(code[:len(word)], word)
}

// builtIn gives the code of a number format that every workbook has (ECMA-376 Part 1,
// 18.8.30), "" for General and for those that do not exist. 27 to 36, 50 to 58 and 71
// to 81 are dates and times whose look depends on the user's locale, which the
// workbook does not tell; their codes here are neutral ones of the same kind.
func builtIn(id int) string {
	switch {
	case id == 32 || id == 33 || id == 75 || id == 76:
		return "h:mm:ss"
	case id == 79:
		return "[h]:mm:ss"
	case id == 78 || id == 80:
		return "mm:ss"
	case id >= 27 && id <= 36, id >= 50 && id <= 58, id >= 71 && id <= 81:
		return "yyyy/m/d"
	case id < 0 || id >= 50:
		return ""
	}
	return [50]string{
		1: "0", 2: "0.00", 3: "#,##0", 4: "#,##0.00",
		5: "$#,##0_);($#,##0)", 6: "$#,##0_);[Red]($#,##0)", 7: "$#,##0.00_);($#,##0.00)", 8: "$#,##0.00_);[Red]($#,##0.00)",
		9: "0%", 10: "0.00%", 11: "0.00E+00", 12: "# ?/?", 13: "# ??/??",
		14: "mm-dd-yy", 15: "d-mmm-yy", 16: "d-mmm", 17: "mmm-yy",
		18: "h:mm AM/PM", 19: "h:mm:ss AM/PM", 20: "h:mm", 21: "h:mm:ss", 22: "m/d/yy h:mm",
		37: "#,##0 ;(#,##0)", 38: "#,##0 ;[Red](#,##0)", 39: "#,##0.00;(#,##0.00)", 40: "#,##0.00;[Red](#,##0.00)",
		41: `_(* #,##0_);_(* \(#,##0\);_(* "-"_);_(@_)`, 42: `_($* #,##0_);_($* \(#,##0\);_($* "-"_);_(@_)`,
		43: `_(* #,##0.00_);_(* \(#,##0.00\);_(* "-"??_);_(@_)`, 44: `_($* #,##0.00_);_($* \(#,##0.00\);_($* "-"??_);_(@_)`,
		45: "mm:ss", 46: "[h]:mm:ss", 47: "mmss.0", 48: "##0.0E+0", 49: "@",
	}[id]
}
