package table

import (
	"fmt"
	"math"
	"math/big"
	"strconv"
	"strings"

	"ferrule/compiler/intake/table/shown"
)

// exactDigits is how many decimal digits a spreadsheet program keeps of a number.
const exactDigits = 15

// number reports numbers that cannot be what was typed, and those that the cell shows
// otherwise than they are read.
func (j *judge) number() {
	if j.role == prose || j.role == day {
		return
	}
	f := j.Value
	if j.role <= value && (math.Abs(f.Number) >= 1e15 || strings.ContainsAny(f.Text, "eE")) {
		j.say(NumberMangled,
			fmt.Sprintf("the number %s has more than the %d digits that a spreadsheet program keeps, or was read as a power of ten", f.Text, exactDigits),
			"set the cell's format to text, then type the value again")
		return
	}
	if f.Format == "" {
		j.noise()
		return
	}
	if (j.role == amount || j.role == property) && j.reader.plainFormat(f.Format) {
		return // figures that were worked out are seldom shown with all their digits
	}
	look, ok := shown.Number(f.Text, f.Format)
	if j.otherwise(look, ok) || !ok || look.Text == f.Text {
		return
	}
	if j.role.named() && j.role != years && j.altered(look) {
		return
	}
	j.lies(look)
}

// plainFormat tells whether a format shows digits and signs alone, and keeps the answer.
func (r *reader) plainFormat(format string) bool {
	plain, known := r.formats[format]
	if !known {
		if r.formats == nil {
			r.formats = map[string]bool{}
		}
		plain = shown.Plain(format)
		r.formats[format] = plain
	}
	return plain
}

// altered reports a number whose format shows signs that are no part of it: it was
// typed as text and turned into a number, or typed without them and read so.
func (j *judge) altered(look shown.Look) bool {
	f := j.Value
	switch {
	case look.Text == "":
		return false
	case look.Power && j.role != size:
		j.say(NumberMangled,
			fmt.Sprintf("the cell shows %s, so what was typed was read as a power of ten, %s", look.Text, f.Text),
			fmt.Sprintf("set the cell's format to text, then type the value again: %s, or other digits with an E", powerOf(f.Text)))
	case look.Words && !(j.role == size && j.ownUnit(look)), look.Parted, look.Zeros && j.role != size:
		j.say(NumberMangled,
			fmt.Sprintf("the cell shows %s and holds the number %s", look.Text, f.Text),
			fmt.Sprintf("set the cell's format to text and type %s, or write %s everywhere", look.Text, f.Text))
		if j.role == value && !look.Words && f.Number >= 0 && math.Trunc(f.Number) == f.Number {
			j.onLine = f.Text // zeros and signs between the digits make no other serial number
		}
	default:
		return false
	}
	return true
}

// powerOf writes a whole number with as few digits before an E as there can be.
func powerOf(decimal string) string {
	digits := strings.TrimRight(decimal, "0")
	if strings.Contains(decimal, ".") || digits == decimal || digits == "" || digits == "-" {
		return decimal
	}
	return fmt.Sprintf("%sE%d", digits, len(decimal)-len(digits))
}

// lies reports a number that reads otherwise than the cell shows it.
func (j *judge) lies(look shown.Look) {
	f := j.Value
	stored, ok := new(big.Rat).SetString(f.Text)
	if !ok {
		panic("table: lies: a number is no decimal")
	}
	rounded := look.Value == nil || !same(look.Value, stored)
	switch {
	case look.Text == "" && f.Number == 0:
		return // hiding zeros is common
	case look.Text == "":
		j.display(fmt.Sprintf("the cell's format shows nothing, and the cell holds %s, which is what is read", f.Text),
			fmt.Sprintf("set the cell's format to General, or clear the cell if %s is not meant", f.Text))
		return
	case look.Words && !rounded && (j.role == amount && j.column.Known || j.ownUnit(look)), !rounded && j.role != code && !look.Words:
		return
	}
	read, format := f.Text, "text"
	if look.Fraction || j.role == size || j.role == value {
		read += inBrackets(asFraction(stored))
	}
	if j.role == amount {
		format = "General"
	}
	j.display(fmt.Sprintf("the cell shows %s and holds %s, which is what is read", look.Text, read),
		fmt.Sprintf("set the cell's format to %s and type %s, or %s if that is meant", format, j.sized(stored), strings.TrimSuffix(look.Text, "%")))
}

// sized writes what a cell holds as one would type it: a size in fractions of an inch.
func (j *judge) sized(stored *big.Rat) string {
	words := asFraction(stored)
	switch {
	case words == "" || j.role != size && j.role != value && j.role != property:
		return j.Text
	case j.column.Unit == "":
		return words + " in"
	}
	return words
}

func inBrackets(s string) string {
	if s == "" {
		return ""
	}
	return " (" + s + ")"
}

func (j *judge) display(message, fix string) {
	j.say(ShownOtherwise, message, fix)
}

// same tells whether the stored double is the one nearest to what is shown: 1/3 has no
// double of its own.
func same(look, stored *big.Rat) bool {
	a, _ := look.Float64()
	b, _ := stored.Float64()
	return math.Abs(a-b) <= 1e-14*math.Abs(b)
}

// asFraction gives a number in halves to 64ths, "" where it is none.
func asFraction(r *big.Rat) string {
	if r.IsInt() || r.Sign() < 0 || !r.Denom().IsInt64() || r.Denom().Int64() > 64 {
		return ""
	}
	whole := new(big.Int).Quo(r.Num(), r.Denom())
	n := new(big.Int).Sub(r.Num(), new(big.Int).Mul(whole, r.Denom()))
	if d := r.Denom().Int64(); d&(d-1) != 0 {
		return ""
	}
	if whole.Sign() == 0 {
		return fmt.Sprintf("%s/%s", n, r.Denom())
	}
	return fmt.Sprintf("%s %s/%s", whole, n, r.Denom())
}

// noise reports a name or size with more digits than a spreadsheet program shows: it was
// worked out, and is a hair off what the cell shows.
func (j *judge) noise() {
	if !j.role.named() {
		return
	}
	text := strconv.FormatFloat(j.Number, 'g', exactDigits, 64)
	rounded, err := strconv.ParseFloat(text, 64)
	if err != nil || rounded == j.Number {
		return
	}
	text = strconv.FormatFloat(rounded, 'f', -1, 64)
	j.display(fmt.Sprintf("the cell shows %s at most and holds %s, which is what is read", text, j.Text),
		fmt.Sprintf("type %s, or round the formula", text))
}
