package schema

// Value is what one cell of a row holds. The zero Value is a blank cell.
type Value struct {
	form   form
	id     int32 // of a text that many cells share, otherwise 0
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

// Shared is Text for a text that many cells of a sheet share: those with one id hold one
// text. The id 0 says nothing.
func Shared(s string, id int32) Value { return Value{form: isText, id: id, text: s} }

// Number is the value of a cell with a number.
func Number(n float64) Value { return Value{form: isNumber, number: n} }

// Bool is the value of a cell with TRUE or FALSE.
func Bool(b bool) Value {
	if b {
		return Value{form: isBool, number: 1}
	}
	return Value{form: isBool}
}

// tag gives a whole number that no other value of the same form has, where there is one
// at hand.
func (v Value) tag() (tag int32, ok bool) {
	if v.form == isText {
		return v.id, v.id != 0
	}
	tag = int32(v.number)
	return tag, float64(tag) == v.number
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
