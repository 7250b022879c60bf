package schema

// Value is what one cell of a row holds. The zero Value is a blank cell.
type Value struct {
	form   form
	text   string
	number float64 // 1 stands for TRUE
}

// form is what kind of value a cell holds.
type form uint8

const (
	isBlank form = iota
	isText
	isNumber
	isBool
	forms // how many there are
)

// Text is the value of a cell with text, which may be empty.
func Text(s string) Value { return Value{form: isText, text: s} }

// Number is the value of a cell with a number.
func Number(n float64) Value { return Value{form: isNumber, number: n} }

// Bool is the value of a cell with TRUE or FALSE.
func Bool(b bool) Value {
	if b {
		return Value{form: isBool, number: 1}
	}
	return Value{form: isBool}
}

// plain gives the value as a Field holds it, nil for a blank cell.
func (v Value) plain() any {
	switch v.form {
	case isText:
		return v.text
	case isNumber:
		return v.number
	case isBool:
		return v.number != 0
	}
	return nil
}
