package sheets

import (
	"math"
	"strconv"
	"strings"

	"ferrule/sheets/cell"
)

// value says what a cell holds (ECMA-376 Part 1, 18.3.1.4 and 18.18.11).
func (a *assembler) value(pos cell.Pos, raw *rawCell) (Value, error) {
	style, err := a.style(pos, raw.style)
	if err != nil {
		return Value{}, err
	}
	if inline := raw.kind == "inlineStr"; inline && raw.hasValue || !inline && raw.hasInline {
		return Value{}, a.at(pos, "the cell's text is not stored in the way that its type %q says", raw.kind)
	}
	v := Value{Struck: style.struck}
	if raw.hasValue || raw.hasInline {
		if err := a.stored(pos, raw, style, &v); err != nil {
			return Value{}, err
		}
	} else if !knownKind(raw.kind) {
		return Value{}, a.unknownKind(pos, raw.kind)
	}
	v.Formula = formulaText(raw)
	if tooLong(v.Text) || tooLong(v.Formula) {
		return Value{}, a.at(pos, "the cell holds more than the %d characters that a cell can hold", maxText)
	}
	return v, nil
}

func knownKind(kind string) bool {
	switch kind {
	case "", "n", "s", "str", "inlineStr", "b", "e", "d":
		return true
	}
	return false
}

func (a *assembler) unknownKind(pos cell.Pos, kind string) *Fault {
	return a.at(pos, "the cell is of a type that is not known here, %q", kind)
}

// stored fills in the value that is stored.
func (a *assembler) stored(pos cell.Pos, raw *rawCell, st style, v *Value) error {
	switch raw.kind {
	case "", "n":
		return a.number(pos, raw.value, st, v)
	case "s":
		w, err := a.shared(pos, raw.value)
		v.Kind, v.Text, v.Struck = Text, w.text, w.strike(st.struck)
		return err
	case "inlineStr":
		v.Kind, v.Text, v.Struck = Text, raw.inline.text, raw.inline.strike(st.struck)
	case "str":
		v.Kind, v.Text = Text, unescape(raw.value)
	case "b":
		is, ok := truth(raw.value)
		if !ok {
			return a.at(pos, "the cell should hold TRUE or FALSE and holds %q", raw.value)
		}
		v.Kind, v.Text = Bool, "FALSE"
		if is {
			v.Text, v.Number = "TRUE", 1
		}
	case "e":
		if raw.value == "" {
			return a.at(pos, "the cell holds an error that has no name")
		}
		v.Kind, v.Text = Error, unescape(raw.value)
	case "d":
		serial, text, ok := a.book.calendar.parse(strings.Trim(raw.value, space))
		if !ok {
			return a.at(pos, "the cell should hold a date and holds %q", raw.value)
		}
		v.Kind, v.Number, v.Text, v.Format = Date, serial, text, st.format.code
	default:
		return a.unknownKind(pos, raw.kind)
	}
	return nil
}

// number reads a double, which is a date if its format shows it as one. An empty one
// is no value: several programs store blank cells and formulas so.
func (a *assembler) number(pos cell.Pos, lexeme string, st style, v *Value) error {
	lexeme = strings.Trim(lexeme, space)
	if lexeme == "" {
		return nil
	}
	f, ok := double(lexeme)
	if !ok {
		return a.at(pos, "the cell should hold a number and holds %q", lexeme)
	}
	v.Kind, v.Number, v.Format = Number, f, st.format.code
	if st.format.date {
		if text, ok := a.book.calendar.iso(f, st.format.day); ok {
			v.Kind, v.Text = Date, text
			return nil
		}
	}
	v.Text = decimal(f)
	return nil
}

func (a *assembler) shared(pos cell.Pos, index string) (words, error) {
	all := a.book.strings
	n, ok := count(strings.Trim(index, space))
	if !ok || n >= len(all) {
		return words{}, a.at(pos, "the cell's text is number %q of the workbook's %d shared texts, which does not exist", index, len(all))
	}
	return all[n], nil
}

func (a *assembler) style(pos cell.Pos, index string) (style, error) {
	if index == "" {
		return a.book.styles[0], nil
	}
	n, ok := count(index)
	if !ok || n >= len(a.book.styles) {
		return style{}, a.at(pos, "the cell's style is number %q of %d, which does not exist", index, len(a.book.styles))
	}
	return a.book.styles[n], nil
}

// double reads an xsd:double that is finite. ParseFloat takes more: infinities,
// hexadecimal digits, underscores. Zero has no sign, as in spreadsheet programs.
func double(s string) (float64, bool) {
	for i := range len(s) {
		switch c := s[i]; {
		case c >= '0' && c <= '9', c == '.', c == 'e', c == 'E', c == '+', c == '-':
		default:
			return 0, false
		}
	}
	f, err := strconv.ParseFloat(s, 64)
	return f + 0, err == nil
}

// decimal gives the shortest decimal that reads back as f, with an exponent only below
// 1e-7 and from 1e21.
func decimal(f float64) string {
	if abs := math.Abs(f); abs != 0 && (abs < 1e-7 || abs >= 1e21) {
		return strconv.FormatFloat(f, 'e', -1, 64)
	}
	return strconv.FormatFloat(f, 'f', -1, 64)
}
