package measure

import (
	"strings"
	"sync"
)

// synonyms says which word of a unit's name stands for which other; all are in the small
// letters of tokens.
var synonyms = sync.OnceValue(func() map[string]string {
	return map[string]string{
		`"`: "in", "inch": "in", "inches": "in", "'": "ft", "foot": "ft", "feet": "ft", "yard": "yd", "yards": "yd",
		"mile": "mi", "miles": "mi", "millimetre": "mm", "millimetres": "mm", "millimeter": "mm", "millimeters": "mm",
		"centimetre": "cm", "centimetres": "cm", "centimeter": "cm", "centimeters": "cm",
		"micrometre": "µm", "micrometres": "µm", "micrometer": "µm", "micrometers": "µm", "microns": "micron",
		"metre": "m", "metres": "m", "meter": "m", "meters": "m",
		"kilometre": "km", "kilometres": "km", "kilometer": "km", "kilometers": "km", "kms": "km",
		"lbs": "lb", "pound": "lb", "pounds": "lb", "lbfs": "lbf", "ounce": "oz", "ounces": "oz",
		"kgs": "kg", "kilogram": "kg", "kilograms": "kg", "kilo": "kg", "kilos": "kg", "gram": "g", "grams": "g",
		"tonne": "t", "tonnes": "t", "newton": "n", "newtons": "n", "decanewton": "dan", "decanewtons": "dan", "kilonewton": "kn", "kilonewtons": "kn",
		"pascal": "pa", "kilopascal": "kpa", "kilopascals": "kpa", "megapascal": "mpa", "megapascals": "mpa",
		"hectopascal": "hpa", "hectopascals": "hpa", "millibar": "mbar", "litre": "l", "litres": "l", "liter": "l", "liters": "l", "ltr": "l",
		"millilitre": "ml", "millilitres": "ml", "milliliter": "ml", "milliliters": "ml",
		"quart": "qt", "quarts": "qt", "qts": "qt", "pint": "pt", "pints": "pt", "gallon": "gal", "gallons": "gal", "fluid": "fl",
		"degree": "deg", "degrees": "deg", "°": "deg", "º": "deg", "˚": "deg", "radian": "rad", "radians": "rad",
		"hour": "h", "hours": "h", "hr": "h", "second": "s", "seconds": "s", "sec": "s",
	}
})

// names holds what people write for each unit, as key spells it. Factors may stand
// together, since points within a word are left out (N.m, ft.lbs), and the forces may be
// written out: pound-force.
var names = sync.OnceValue(func() map[string]Unit {
	out := map[string]Unit{}
	add := func(name string, u Unit) {
		if old, twice := out[name]; twice && old != u {
			panic("measure: " + name + " names two units")
		}
		out[name] = u
	}
	for _, d := range units()[1:] {
		all := strings.Fields(d.names)
		if d.symbol != "" {
			key, _ := (&parser{tokens: tokens(d.symbol)}).key(maxFactors)
			all = append(all, key)
		}
		for _, name := range all {
			add(name, d.unit)
			add(strings.NewReplacer("lbf", "lb·force", "kgf", "kg·force").Replace(name), d.unit)
			for _, plural := range []string{"lb", "lbs"} {
				add(strings.ReplaceAll(strings.ReplaceAll(name, "·", ""), "lb", plural), d.unit)
			}
		}
	}
	return out
})

// maxFactors bounds how many words name a unit: `pounds per square inch`.
const maxFactors = 4

// ParseUnit reads the name of a unit, as headers have it in brackets.
func ParseUnit(text string) (Unit, bool) {
	p := parser{tokens: tokens(text)}
	if u := p.unit(); p.at(end) {
		return u, u != NoUnit
	}
	return NoUnit, false
}

// unit reads the longest name of a unit that stands here, if one does.
func (p *parser) unit() Unit {
	for factors := maxFactors; factors > 0; factors-- {
		key, length := p.key(factors)
		if u, ok := names()[key]; ok {
			p.tokens = p.tokens[length:]
			return u
		}
	}
	return NoUnit
}

// key spells the next words in the one way of the table: synonyms settled, `·` between
// factors whether a dot, a hyphen or a blank stood there, `/` for per, powers as digits.
// It also says how many tokens they are.
func (p *parser) key(factors int) (key string, length int) {
	for n := 0; n < factors; n++ {
		at, join := length, ""
		if n > 0 {
			join = "·"
			if sign := p.peek(at).joins(); sign != "" {
				join, at = sign, at+1
			}
		}
		raised := p.peek(at).raises()
		if raised != "" {
			at++
		}
		name, ok := p.peek(at).factor()
		if !ok {
			break
		}
		key, length = key+join+name+raised, at+1
		if power, used := p.power(length); used > 0 {
			key, length = key+power, length+used
		}
	}
	return key, length
}

// joins gives the sign between two factors that a token stands for, "" for none.
func (t token) joins() string {
	switch {
	case t.kind == '/' || t.kind == word && t.text == "per":
		return "/"
	case t.kind == '-' || t.kind == word && t.text == "x" || strings.ContainsRune("·⋅•∙", rune(t.kind)):
		return "·"
	}
	return ""
}

// raises gives the power that a word stands for, "" for none.
func (t token) raises() string {
	switch {
	case t.kind == word && (t.text == "sq" || t.text == "square"):
		return "2"
	case t.kind == word && (t.text == "cu" || t.text == "cubic"):
		return "3"
	}
	return ""
}

// factor gives a token as a word of a unit's name.
func (t token) factor() (string, bool) {
	if t.kind == number || t.kind != word && !strings.ContainsRune(`"'°º˚%`, rune(t.kind)) {
		return "", false
	}
	if other, ok := synonyms()[t.text]; ok {
		return other, true
	}
	return t.text, true
}

// feet tells whether a token stands for feet: what touches it are inches, and no power of
// it (5'2", 5ft3in).
func (t token) feet() bool {
	name, ok := t.factor()
	return ok && name == Foot.String()
}

// power reads `²`, `^2` or a 2 that touches the word before it.
func (p *parser) power(at int) (digit string, length int) {
	switch t := p.peek(at); {
	case t.kind == '²':
		return "2", 1
	case t.kind == '³':
		return "3", 1
	case t.kind == number && t.glued && (t.text == "2" || t.text == "3") && !p.peek(at-1).feet():
		return t.text, 1
	case t.kind == '^' && (p.peek(at+1).text == "2" || p.peek(at+1).text == "3"):
		return p.peek(at + 1).text, 2
	}
	return "", 0
}
