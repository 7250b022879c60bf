package guide

import (
	"strings"

	"ferrule/compiler/measure"
	"ferrule/compiler/model"
)

// quantity gives a measured value in both systems, as the settings order them.
func (s *site) quantity(q measure.Quantity) string {
	return s.printed(q.Words(s.cat.Settings.System()))
}

// size gives a line size in both systems. What it is measured on is said beside it.
func (s *site) size(size *measure.Size) string {
	if !size.Known() {
		return size.Text
	}
	first := measure.Inch
	if s.cat.Settings.Millimetres {
		first = measure.Millimetre
	}
	return s.printed(strings.Replace(size.Words(first), " hose", "", 1))
}

// otherSize gives the size that a value stands for in the other system; "" where it is no
// size, or where its name says both.
func (s *site) otherSize(v *model.Value) string {
	if !v.Size.Known() || strings.Contains(v.Name, "(") {
		return ""
	}
	_, other, _ := strings.Cut(strings.TrimSuffix(s.printed(v.Size.String()), ")"), "(")
	return other
}

// printed puts the decimal sign of the page into what measure has written, and keeps
// printed and units on one line.
func (s *site) printed(words string) string {
	sign := s.tongue.Decimal()
	if s.folder == "" { // whose sign Settings say
		if sign = "."; s.cat.Settings.DecimalComma {
			sign = ","
		}
	}
	words = s.measured(strings.ReplaceAll(words, ".", sign))
	words = strings.ReplaceAll(words, " ", "\u00a0")
	return strings.ReplaceAll(words, "\u00a0(", " (")
}

// measured says in the words of the page what measure has in English between its numbers.
func (e *edition) measured(words string) string {
	for _, key := range []string{"at least %s", "at most %s"} {
		before, _, _ := strings.Cut(key, "%s")
		if rest, ok := strings.CutPrefix(words, before); ok {
			return e.tongue.Say(key, rest)
		}
	}
	return strings.ReplaceAll(words, " to ", e.tongue.Piece("%s to %s", 1))
}

// decimals puts the decimal sign of a further language into a number.
func (e *edition) decimals(number string) string {
	if e.folder == "" {
		return number
	}
	return strings.ReplaceAll(number, ".", e.tongue.Decimal())
}
