package glyph

import "unicode"

// alphabet gives the alphabet of a letter that may look like a Latin one, nil for
// others.
func alphabet(r rune) *unicode.RangeTable {
	if r < 0x370 || r >= 0x2000 {
		return nil
	}
	switch {
	case unicode.Is(unicode.Cyrillic, r):
		return unicode.Cyrillic
	case unicode.Is(unicode.Greek, r):
		return unicode.Greek
	case unicode.Is(unicode.Armenian, r):
		return unicode.Armenian
	case unicode.Is(unicode.Cherokee, r):
		return unicode.Cherokee
	}
	return nil
}

// twin gives the Latin letter that a letter of another alphabet looks like in most
// typefaces, 0 where it looks like none. The pairs are those of Unicode Technical
// Standard 39 (from memory) that a keyboard of a living language has; Greek letters that
// are signs of units and sizes are not among them.
func twin(r rune) rune {
	switch {
	case r >= 'Α' && r <= 'ϳ':
		return greek(r)
	case r >= 'Ѐ' && r <= 'ԯ':
		return cyrillic(r)
	}
	switch r {
	case 'Օ':
		return 'O'
	case 'օ':
		return 'o'
	case 'ո':
		return 'n'
	case 'ս':
		return 'u'
	case 'հ':
		return 'h'
	case 'Տ':
		return 'S'
	case 'Լ':
		return 'L'
	}
	return 0
}

func greek(r rune) rune {
	return pair(r, "ΑΒΕΖΗΙΚΜΝΟΡΤΥΧονϲϳ", "ABEZHIKMNOPTYXovcj")
}

func cyrillic(r rune) rune {
	return pair(r, "АВЕЅІЈКМНОРСТУХԚԜӀаеорсухіјѕһԁԛԝӏ", "ABESIJKMHOPCTYXQWIaeopcyxijshdqwl")
}

func pair(r rune, from, to string) rune {
	i := 0
	for _, f := range from {
		if f == r {
			return rune(to[i])
		}
		i++
	}
	return 0
}
