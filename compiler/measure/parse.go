package measure

import (
	"errors"
	"fmt"
	"math/big"
	"regexp"
	"strings"
)

// Options of reading.
type Options struct {
	Comma bool // a comma is the decimal sign; a point is one as well
}

// ErrUnitless is what errors.Is finds in the error for a size without a unit.
var ErrUnitless = errors.New("a size without a unit")

// unitless carries the sentence for one.
type unitless struct{ text string }

func (u unitless) Error() string {
	return fmt.Sprintf("%q has no unit; write %s in or %s mm", u.text, u.text, u.text)
}

func (u unitless) Is(err error) bool { return err == ErrUnitless }

// maxText bounds what is looked at: no size is that long.
const maxText = 64

// maxMM is the largest size in millimetres that is taken for one.
const maxMM = 100_000

var (
	units = regexp.MustCompile(`^(.*?)\s*(?:("|''|inches|inch|in\.?)|(millimetres?|millimeters?|mm\.?))$`)
	// A whole number, a fraction, a mixed fraction (with a space or a hyphen), or a
	// decimal.
	fraction = regexp.MustCompile(`^(?:(\d{1,5})(?:\s+|\s*-\s*))?(\d{1,5})\s*/\s*(\d{1,5})$`)
	decimal  = regexp.MustCompile(`^\d{1,6}(?:\.\d{1,12})?$|^\.\d{1,12}$`)
)

// replaced are the signs that stand for others: quotes and primes for the inch sign,
// spaces of other widths, the multiplication sign.
var replaced = strings.NewReplacer(
	"″", `"`, "”", `"`, "“", `"`, "„", `"`, "＂", `"`, "‟", `"`,
	"′", `'`, "’", `'`, "‘", `'`, "`", `'`, "´", `'`,
	"\u00a0", " ", "\u2009", " ", "\u202f", " ", "\u2007", " ",
	"×", "x", "⁄", "/", "∕", "/", "‐", "-", "‑", "-",
	"½", " 1/2", "¼", " 1/4", "¾", " 3/4", "⅛", " 1/8", "⅜", " 3/8", "⅝", " 5/8", "⅞", " 7/8",
	"⅓", " 1/3", "⅔", " 2/3", "⅕", " 1/5", "⅙", " 1/6",
)

// ParseSize reads a size: 1/2 in, 1/2", ½", 1 1/4 in, 0.5 in, 12.7 mm, 8x1 mm (outside
// diameter and wall), 3/8 in hose. The error is a sentence that says what is there and
// what to write; errors.Is(err, ErrUnitless) tells a size that only lacks its unit.
func ParseSize(text string, o Options) (Size, error) {
	if len(text) > maxText {
		return Size{}, fmt.Errorf("%q… is too long for a size; write for example 1/2 in or 12.7 mm", cut(text))
	}
	size := Size{Text: strings.TrimSpace(text)}
	s := strings.Join(strings.Fields(strings.ToLower(replaced.Replace(text))), " ")
	s, size.Of = what(s)
	m := units.FindStringSubmatch(s)
	if m == nil {
		if _, _, err := numbers(s, o); err == nil && s != "" {
			return Size{}, unitless{size.Text}
		}
		return Size{}, notSize(size.Text)
	}
	size.Unit = Inch
	if m[3] != "" {
		size.Unit = Millimetre
	}
	num, wall, err := numbers(m[1], o)
	if err != nil {
		return Size{}, fmt.Errorf("%q: %w", size.Text, err)
	}
	size.Num, size.Wall = num, wall
	return size, size.sane()
}

// ParseSizeIn reads a size whose unit may be left out, since a header states it.
func ParseSizeIn(text string, unit Unit, o Options) (Size, error) {
	size, err := ParseSize(text, o)
	if !errors.Is(err, ErrUnitless) || unit == NoUnit {
		return size, err
	}
	name := " in"
	if unit == Millimetre {
		name = " mm"
	}
	size, err = ParseSize(text+name, o)
	size.Text = strings.TrimSpace(text)
	return size, err
}

// what cuts off the words that say what the size is measured on.
func what(s string) (string, Of) {
	of := Tube
	for _, w := range []struct {
		word string
		of   Of
	}{{"hose", Hose}, {"id", Hose}, {"i.d.", Hose}, {"tubing", Tube}, {"tube", Tube}, {"od", Tube}, {"o.d.", Tube}} {
		if rest, ok := strings.CutSuffix(s, w.word); ok && strings.HasSuffix(strings.TrimRight(rest, " "), "") && rest != s {
			if rest == "" || strings.HasSuffix(rest, " ") || strings.HasSuffix(rest, `"`) {
				s, of = strings.TrimSpace(rest), w.of
			}
		}
		if rest, ok := strings.CutPrefix(s, w.word+" "); ok {
			s, of = strings.TrimSpace(rest), w.of
		}
	}
	return s, of
}

// numbers reads `8`, `1/2` or `8x1`.
func numbers(s string, o Options) (num, wall *big.Rat, err error) {
	first, second, two := strings.Cut(s, "x")
	if num, err = number(first, o); err != nil {
		return nil, nil, err
	}
	if two {
		if wall, err = number(second, o); err != nil {
			return nil, nil, err
		}
	}
	return num, wall, nil
}

// number reads a fraction, a mixed fraction or a decimal.
func number(s string, o Options) (*big.Rat, error) {
	s = strings.TrimSpace(s)
	if m := fraction.FindStringSubmatch(s); m != nil {
		n, ok := new(big.Rat).SetString(m[2] + "/" + m[3])
		if !ok {
			return nil, errors.New("a fraction cannot have 0 below its line")
		}
		if m[1] != "" {
			whole, _ := new(big.Rat).SetString(m[1])
			n.Add(n, whole)
		}
		return n, nil
	}
	if strings.Contains(s, ",") {
		if !o.Comma {
			return nil, errors.New("the decimal sign of this catalogue is a point; write it so, or set decimal to , in Settings")
		}
		s = strings.Replace(s, ",", ".", 1)
	}
	if !decimal.MatchString(s) {
		return nil, errors.New("that is no number; write for example 1/2, 1 1/4, 0.5 or 12.7 before the unit")
	}
	n, ok := new(big.Rat).SetString(s)
	if !ok {
		panic("measure: number: a decimal that is none")
	}
	return n, nil
}

// sane refuses sizes that no line has.
func (s Size) sane() error {
	switch mm := s.MM(); {
	case mm.Sign() <= 0:
		return fmt.Errorf("%q: a size is more than 0", s.Text)
	case mm.Cmp(big.NewRat(maxMM, 1)) > 0:
		return fmt.Errorf("%q is longer than %d mm, which no size is", s.Text, maxMM)
	case s.Wall != nil && s.Wall.Sign() <= 0:
		return fmt.Errorf("%q: a wall is more than 0", s.Text)
	case s.Wall != nil && new(big.Rat).Mul(s.Wall, big.NewRat(2, 1)).Cmp(s.Num) >= 0:
		return fmt.Errorf("%q: two walls leave no bore; write the outside diameter first, then the wall: 8x1 mm", s.Text)
	}
	return nil
}

func notSize(text string) error {
	return fmt.Errorf("%q is not a size; write for example 1/2 in, 12.7 mm, or 8x1 mm for outside diameter and wall", text)
}

func cut(s string) string {
	r := []rune(s)
	return string(r[:min(len(r), 20)])
}
