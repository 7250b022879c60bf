package formula

import (
	"strings"

	"ferrule/schema/word"
)

// source is a text and the place in it that is read, in characters.
type source struct {
	text   []rune // white space collapsed
	folded []rune // character by character, for names
	at     int
}

func newSource(text string) *source {
	text = strings.Join(strings.Fields(text), " ")
	return &source{text: []rune(text), folded: []rune(word.Fold(text))}
}

func (s *source) end() bool { return s.at >= len(s.text) }

func (s *source) is(i int, r rune) bool { return i < len(s.text) && s.text[i] == r }

func (s *source) blank() {
	if s.is(s.at, ' ') {
		s.at++
	}
}

func (s *source) slice(from, to int) string { return strings.TrimSpace(string(s.text[from:to])) }

// sign gives the operator that a character stands for, as people and programs write
// it.
func sign(r rune) (op, bool) {
	switch r {
	case '+':
		return add, true
	case '-', '−', '–':
		return subtract, true
	case '*', '×', '·':
		return multiply, true
	case '/', '÷':
		return divide, true
	}
	return 0, false
}

// operator tells whether an operator with spaces around stands at a blank; the ends of
// the text count as spaces.
func (s *source) operator(i int) (op, bool) {
	if !s.is(i, ' ') || i+1 >= len(s.text) || i+2 < len(s.text) && s.text[i+2] != ' ' {
		return 0, false
	}
	return sign(s.text[i+1])
}

// boundary tells whether an operand can end here: before the end, an operator or a
// closing bracket.
func (s *source) boundary(i int) bool {
	if i == len(s.text) || s.is(i, ')') || s.is(i, ' ') && s.is(i+1, ')') {
		return true
	}
	_, ok := s.operator(i)
	return ok
}

// name gives the longest declared name that begins here, and where it ends.
func (s *source) name(n *Names) (found entry, end int, ok bool) {
	for i := s.at + 1; i <= len(s.text); i++ {
		if !s.boundary(i) {
			continue
		}
		if e, known := n.by[string(s.folded[s.at:i])]; known {
			found, end, ok = e, i, true
		}
	}
	return found, end, ok
}

// piece gives where an operand that is no name ends. What stands in brackets within it
// belongs to it: `1/2 in (12.7 mm)`.
func (s *source) piece() int {
	open := 0
	for i := s.at; i < len(s.text); i++ {
		switch {
		case open == 0 && i > s.at && s.boundary(i):
			return i
		case s.text[i] == '(':
			open++
		case s.text[i] == ')':
			open-- // one that closes nothing is a boundary
		}
	}
	return len(s.text)
}
