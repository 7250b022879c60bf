package sheets

import (
	"math"
	"strconv"
	"strings"

	"ferrule/sheets/cell"
)

// typer says what cells hold. Its rules are the same however the XML was read.
type typer struct {
	spot
	book *packed
}

// value says what a cell holds (ECMA-376 Part 1, 18.3.1.4 and 18.18.11).
func (t *typer) value(pos cell.Pos, style style, raw *rawCell) (Value, error) {
	if inline := raw.kind == "inlineStr"; inline && raw.hasValue || !inline && raw.hasInline {
		return Value{}, t.at(pos, "the cell's text is not stored in the way that its type %q says", raw.kind)
	}
	v := Value{Struck: style.struck, Look: style.look}
	if raw.hasValue || raw.hasInline {
		if err := t.stored(pos, raw, style, &v); err != nil {
			return Value{}, err
		}
	} else if !knownKind(raw.kind) {
		return Value{}, t.unknownKind(pos, raw.kind)
	}
	v.Formula = formulaText(raw)
	if tooLong(v.Text) || tooLong(v.Formula) {
		return Value{}, t.at(pos, "the cell holds more than the %d characters that a cell can hold", maxText)
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

func (t *typer) unknownKind(pos cell.Pos, kind string) *Fault {
	return t.at(pos, "the cell is of a type that is not known here, %q", kind)
}

// holds tells whether a cell is given out.
func holds(v *Value) bool {
	return v.Formula != "" || v.Kind != Blank && !(v.Kind == Text && v.Text == "")
}

// stored fills in the value that is stored.
func (t *typer) stored(pos cell.Pos, raw *rawCell, st style, v *Value) error {
	switch raw.kind {
	case "", "n":
		return t.number(pos, raw.value, st, v)
	case "s":
		index := strings.Trim(raw.value, space)
		if index == "" {
			return nil // as spreadsheet programs take it
		}
		n, err := t.shared(pos, index)
		if err != nil {
			return err
		}
		w := t.book.strings.at(n)
		v.Kind, v.Text, v.Struck, v.Partly, v.Shared = Text, w.text, w.strike(st.struck), w.partly(st.struck), int32(n)+1
	case "inlineStr":
		w := &raw.inline
		v.Kind, v.Text, v.Struck, v.Partly = Text, w.text, w.strike(st.struck), w.partly(st.struck)
	case "str":
		v.Kind, v.Text = Text, unescape(raw.value)
	case "b":
		is, ok := truth(raw.value)
		if !ok {
			return t.at(pos, "the cell should hold TRUE or FALSE and holds %q", raw.value)
		}
		v.Kind, v.Text = Bool, "FALSE"
		if is {
			v.Text, v.Number = "TRUE", 1
		}
	case "e":
		if raw.value == "" {
			return t.at(pos, "the cell holds an error that has no name")
		}
		v.Kind, v.Text = Error, unescape(raw.value)
	case "d":
		serial, text, ok := t.book.calendar.parse(strings.Trim(raw.value, space))
		if !ok {
			return t.at(pos, "the cell should hold a date and holds %q", raw.value)
		}
		v.Kind, v.Number, v.Text, v.Format = Date, serial, text, st.format.code
	default:
		return t.unknownKind(pos, raw.kind)
	}
	return nil
}

// number reads a double, which is a date if its format shows it as one. An empty one
// is no value: several programs store blank cells and formulas so.
func (t *typer) number(pos cell.Pos, lexeme string, st style, v *Value) error {
	lexeme = strings.Trim(lexeme, space)
	if lexeme == "" {
		return nil
	}
	f, ok := double(lexeme)
	if !ok {
		return t.at(pos, "the cell should hold a number and holds %q", lexeme)
	}
	v.Kind, v.Number, v.Format = Number, f, st.format.code
	if text, ok := t.date(f, st.format); ok {
		v.Kind, v.Text = Date, text
		return nil
	}
	var text [32]byte
	v.Text = string(appendDecimal(text[:0], f))
	return nil
}

// date gives a serial as ISO 8601 if the number format shows it as a date, and as hours where it
// shows elapsed time.
func (t *typer) date(serial float64, format numFormat) (string, bool) {
	s := sectionOf(format.sections, serial)
	switch {
	case s == nil || !s.dates():
		return "", false
	case s.elapsed && !s.dated():
		return elapsed(serial)
	}
	return t.book.calendar.iso(serial, s.dated())
}

// shared reads the index of a shared string, which must exist.
func (t *typer) shared(pos cell.Pos, index string) (int, error) {
	if t.book.noTexts != nil {
		return 0, t.book.noTexts
	}
	n, ok := count(index)
	if !ok || n >= t.book.strings.n {
		return 0, t.at(pos, "the cell's text is number %q of the workbook's %d shared texts, which does not exist", index, t.book.strings.n)
	}
	return n, nil
}

func (t *typer) style(pos cell.Pos, index string) (style, error) {
	if index == "" {
		return t.book.styles[0], nil
	}
	n, ok := count(index)
	if !ok || n >= len(t.book.styles) {
		return style{}, t.at(pos, "the cell's style is number %q of %d, which does not exist", index, len(t.book.styles))
	}
	return t.book.styles[n], nil
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

// appendDecimal appends the shortest decimal that reads back as f, with an exponent
// only below 1e-7 and from 1e21.
func appendDecimal(to []byte, f float64) []byte {
	if abs := math.Abs(f); abs != 0 && (abs < 1e-7 || abs >= 1e21) {
		return strconv.AppendFloat(to, f, 'e', -1, 64)
	}
	return strconv.AppendFloat(to, f, 'f', -1, 64)
}
