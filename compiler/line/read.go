package line

import (
	"errors"
	"fmt"
	"regexp"
	"strings"
)

// Value reads one value: a serial number, a day, or a month, which is a range of days. The error
// is a sentence that says what to write instead.
func (k Kind) Value(text string) (Range, error) {
	text = strings.Join(strings.Fields(text), " ")
	if k == Date {
		return parseDate(text)
	}
	return parseSerial(text)
}

var (
	dash   = regexp.MustCompile(`[-\x{2010}-\x{2015}\x{2212}]`)
	toWord = regexp.MustCompile(`(?i) to `)
)

// Range reads a piece of a condition: a value, `A-B`, `A to B`, `from A`, `from A to B`, `A+`,
// `to B` or `before B`. A range without an end ends where values of its kind do. The error is a
// sentence that says what to write instead.
func (k Kind) Range(text string) (Range, error) {
	text = strings.Join(strings.Fields(text), " ")
	first, last := k.Ends()
	if rest, ok := cutWord(text, "from"); ok {
		if low, high, both := cutTo(rest); both {
			return k.between(text, low, high)
		}
		r, err := k.Value(rest)
		return Range{r.Letters, r.From, last}, err
	}
	if rest, ok := cutWord(text, "to"); ok {
		r, err := k.Value(rest)
		return Range{r.Letters, first, r.To}, err
	}
	if rest, ok := cutWord(text, "before"); ok {
		return k.before(rest)
	}
	if rest, ok := cutWord(text, "after"); ok {
		return Range{}, k.after(rest)
	}
	if rest, ok := strings.CutSuffix(text, "+"); ok {
		r, err := k.Value(rest)
		return Range{r.Letters, r.From, last}, err
	}
	if low, high, both := cutTo(text); both {
		return k.between(text, low, high)
	}
	r, err := k.Value(text)
	if err == nil {
		return r, nil
	}
	if low, high, ok := k.split(text); ok {
		return k.between(text, low, high)
	}
	return Range{}, err
}

func (k Kind) before(rest string) (Range, error) {
	r, err := k.Value(rest)
	if err != nil {
		return Range{}, err
	}
	first, _ := k.Ends()
	if r.From == first {
		return Range{}, fmt.Errorf("nothing is before %s", rest)
	}
	return Range{r.Letters, first, r.From - 1}, nil
}

// after says what to write instead: with `after 2009-03` nobody knows whether March belongs to it.
func (k Kind) after(rest string) error {
	r, err := k.Value(rest)
	if err != nil {
		return err
	}
	with, without := Range{r.Letters, r.From, r.To}, Range{r.Letters, r.To + 1, r.To + 1}
	return fmt.Errorf("\"after %s\" leaves open whether %s belongs to it; write from %s where it does, or from %s where it does not",
		rest, rest, k.beginning(with), k.beginning(without))
}

// beginning writes the begin of a range as shortly as it can be.
func (k Kind) beginning(r Range) string {
	if k == Date {
		if y, m, d := r.First().Day(); d == 1 {
			return fmt.Sprintf("%04d-%02d", y, m)
		}
	}
	return k.point(r.First())
}

// between makes a range of its two ends.
func (k Kind) between(text, low, high string) (Range, error) {
	from, err := k.Value(low)
	if err != nil {
		return Range{}, err
	}
	to, err := k.Value(high)
	switch {
	case err != nil:
		return Range{}, err
	case from.Letters != to.Letters:
		return Range{}, fmt.Errorf("%q begins and ends with other letters, and letters have no order; write one range for each: %s", text, k.apart(from, to))
	case to.To < from.From:
		return Range{}, fmt.Errorf("%q runs backwards; write %s", text, k.write(Range{from.Letters, to.From, from.To}))
	}
	return Range{from.Letters, from.From, to.To}, nil
}

// apart writes the two ends of a range whose letters differ as two ranges.
func (k Kind) apart(from, to Range) string {
	if to.Letters == "" {
		return fmt.Sprintf("%s to %s%d where the same letters are meant", k.point(from.First()), from.Letters, to.To)
	}
	return fmt.Sprintf("from %s, to %s", k.point(from.First()), k.point(to.End()))
}

// split cuts `A-B` at the dash with a value on both sides.
func (k Kind) split(text string) (low, high string, ok bool) {
	for _, at := range dash.FindAllStringIndex(text, -1) {
		low, high = strings.TrimSpace(text[:at[0]]), strings.TrimSpace(text[at[1]:])
		_, lowErr := k.Value(low)
		if _, highErr := k.Value(high); lowErr == nil && highErr == nil {
			return low, high, true
		}
	}
	return "", "", false
}

func cutTo(text string) (low, high string, ok bool) {
	at := toWord.FindStringIndex(text)
	if at == nil {
		return text, "", false
	}
	return text[:at[0]], text[at[1]:], true
}

// cutWord takes a word and the space behind it off a text, whatever its case.
func cutWord(text, word string) (rest string, ok bool) {
	if len(text) <= len(word) || text[len(word)] != ' ' || !strings.EqualFold(text[:len(word)], word) {
		return text, false
	}
	return text[len(word)+1:], true
}

var separator = regexp.MustCompile(`[,;\n]|(?i: or )`)

// Extent reads the values that there are: ranges that are closed at both ends.
func (k Kind) Extent(text string) (Set, error) {
	var all []Range
	first, last := k.Ends()
	for _, piece := range separator.Split(text, -1) {
		if strings.TrimSpace(piece) == "" {
			continue
		}
		r, err := k.Range(piece)
		if err != nil {
			return nil, err
		}
		if r.From == first && !states(piece) || r.To == last {
			return nil, fmt.Errorf("%q has no end; write the first and the last value that there are, such as %s", strings.TrimSpace(piece), k.example())
		}
		all = append(all, r)
	}
	if len(all) == 0 {
		return nil, errors.New("no values are named; write the first and the last, such as " + k.example())
	}
	return SetOf(all...), nil
}

// states tells whether a text begins with a value, rather than with a word such as `to`.
func states(piece string) bool {
	piece = strings.TrimSpace(piece)
	_, to := cutWord(piece, "to")
	_, before := cutWord(piece, "before")
	return !to && !before
}

func (k Kind) example() string {
	if k == Date {
		return "2003-01 to 2018-12"
	}
	return "10001 to 46999"
}
