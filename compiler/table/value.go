package table

import (
	"fmt"
	"math"
	"strings"
	"unicode"

	"ferrule/compiler/finding"
	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// field makes a field of a value and reports what spreadsheet programs and hands have
// done to it. A value that cannot be what was typed is Broken.
func (r *reader) field(t *Table, column int, v sheets.Value, at cell.Pos) Field {
	f := Field{Column: column, Value: v, At: at}
	place, col := t.Place(at), t.Columns[column]
	say := func(code finding.Code, sev finding.Severity, message, fix string) {
		r.report(&finding.Finding{Code: code, Severity: sev, Message: message, Cells: finding.At(place), Fix: fix})
		f.Broken = f.Broken || sev == finding.Error
	}
	switch v.Kind {
	case sheets.Blank:
		say(CellFormulaStale, finding.Error,
			fmt.Sprintf("the formula =%s has no stored value", short(v.Formula)),
			"open the workbook in a spreadsheet program, let it calculate, and save it; or type the value")
	case sheets.Error:
		say(CellError, finding.Error,
			fmt.Sprintf("the cell shows %s instead of a value", v.Text),
			"mend the formula, or type the value")
	case sheets.Date:
		r.date(&f, col, say)
	case sheets.Number:
		number(v, col, say)
	case sheets.Text:
		text(v.Text, say)
	}
	return f
}

type sayer func(code finding.Code, sev finding.Severity, message, fix string)

// dated names the columns that take a date, and those whose text may mention one.
func dated(kind string, col Column) (takes, mayMention bool) {
	switch {
	case !col.Known:
		return false, kind == "parts"
	case kind == "accepted" && col.Name == "Until":
		return true, true
	}
	switch col.Name {
	case "Note", "Summary", "Reason", "Message", "Text", "Value":
		return false, kind != "traits"
	}
	return false, false
}

func (r *reader) date(f *Field, col Column, say sayer) {
	takes, may := dated(r.layout.Kind, col)
	if takes || may && fullDate(f.Format) {
		return
	}
	say(CellDateMangled, finding.Error,
		fmt.Sprintf("the cell holds the date %s, which is probably not what was typed%s", f.Text, typed(f.Text)),
		"set the cell's format to text, then type the value again")
}

// fullDate tells whether a number format shows day, month and year.
func fullDate(format string) bool {
	f := strings.ToLower(format)
	return strings.Contains(f, "d") && strings.Contains(f, "m") && strings.Contains(f, "y")
}

// typed guesses what became a date: a fraction such as 1/2 reads as a day and a
// month, in the order of the typist's country.
func typed(iso string) string {
	var y, m, d int
	if n, _ := fmt.Sscanf(iso, "%d-%d-%d", &y, &m, &d); n != 3 {
		return ""
	}
	sizes := map[int]bool{2: true, 4: true, 8: true, 16: true}
	switch a, b := sizes[d] && m < d && m%2 == 1, sizes[m] && d < m && d%2 == 1; {
	case a:
		return fmt.Sprintf(" (%d/%d in?)", m, d)
	case b:
		return fmt.Sprintf(" (%d/%d in?)", d, m)
	}
	return ""
}

// exactDigits is how many decimal digits a spreadsheet program keeps of a number.
const exactDigits = 15

func number(v sheets.Value, col Column, say sayer) {
	if zeros := strings.Trim(v.Format, "0") == "" && len(v.Format) > 1; zeros && math.Trunc(v.Number) == v.Number {
		shown := fmt.Sprintf("%0*.0f", len(v.Format), v.Number)
		if shown != v.Text {
			say(CellNumberMangled, finding.Error,
				fmt.Sprintf("the cell shows %s and holds the number %s", shown, v.Text),
				fmt.Sprintf("set the cell's format to text and type %s, or write %s everywhere", shown, v.Text))
			return
		}
	}
	if !identifies(col) {
		return
	}
	if math.Abs(v.Number) >= 1e15 || strings.ContainsAny(v.Text, "eE") {
		say(CellNumberMangled, finding.Error,
			fmt.Sprintf("the number %s has more than the %d digits that a spreadsheet program keeps, or was read as a power of ten", v.Text, exactDigits),
			"set the cell's format to text, then type the value again")
	}
}

// identifies tells whether the column holds names or numbers of parts.
func identifies(col Column) bool {
	switch col.Name {
	case "Part", "Kit", "Number", "With", "Replaced by", "Fits":
		return true
	}
	return !col.Known
}

// text reports letters that look like others, and characters that cannot be seen.
func text(s string, say sayer) {
	for _, word := range strings.FieldsFunc(s, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) && !unseen(r) }) {
		if bad, ok := odd(word); ok {
			say(CellLookalike, finding.Warning,
				fmt.Sprintf("%q holds %s", clean(word), bad),
				"type the word again")
			return
		}
	}
}

// odd finds a letter of another alphabet in a word with Latin letters, or a character
// without width.
func odd(word string) (string, bool) {
	latin := strings.ContainsFunc(word, func(r rune) bool { return unicode.Is(unicode.Latin, r) || unicode.IsDigit(r) })
	for _, r := range word {
		switch {
		case unseen(r):
			return fmt.Sprintf("the character U+%04X, which cannot be seen", r), true
		case latin && unicode.In(r, unicode.Cyrillic, unicode.Greek, unicode.Armenian, unicode.Cherokee) && !unitSign(r):
			return fmt.Sprintf("%q (U+%04X), a letter of another alphabet that looks like one of ours", r, r), true
		}
	}
	return "", false
}

func unseen(r rune) bool {
	return r >= 0x200B && r <= 0x200F || r == 0x2060 || r == 0xFEFF || r == 0x00AD || r >= 0x202A && r <= 0x202E
}

// unitSign tells whether a Greek letter is one that sizes and units are written with.
func unitSign(r rune) bool {
	return r == 'µ' || r == 'μ' || r == 'Ω' || r == 'φ' || r == 'Φ' || r == 'Δ'
}

func clean(s string) string {
	return strings.Map(func(r rune) rune {
		if unseen(r) {
			return -1
		}
		return r
	}, s)
}

func short(s string) string {
	if r := []rune(s); len(r) > 60 {
		return string(r[:60]) + "…"
	}
	return s
}
