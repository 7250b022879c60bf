package mistakes

import (
	"fmt"

	"ferrule/out/markup"
)

// inCalled are mistakes under Also called.
func inCalled() []mistake {
	called := func(sheet, head, of, as, code, says string) mistake {
		return mistake{name: fmt.Sprintf("%s also called %q", of, as), do: func(b *books) {
			s := b.sheet(sheet)
			s.put("Also called", s.row(head, of), markup.Words(as))
		}, wants: []want{{code, sheet, says}}, most: 1}
	}
	platform := func(as, code, says string) mistake { return called("Platforms", "Platform", "H7", as, code, says) }
	value := func(as, code, says string) mistake { return called("Traits", "Value", "Air beam", as, code, says) }
	const malformed, shared = "condition-malformed", "name-shared"
	return []mistake{
		platform("H9", shared, "the name of the platform H9"),
		platform("lark-4", shared, "the platform L4 is also called .Lark 4., and so is the platform H7"),
		platform("any", malformed, "means something else in conditions"),
		platform("2012", malformed, "reads as a model year"),
		platform("2004-2010", malformed, "reads as a model year"),
		platform("-", "value-invalid", "is no name that people use"),
		platform("TBD", "value-invalid", "leave Also called blank"),
		platform("TH7 and Tarnholt 7", malformed, "is taken for one name; where it is two, write , or ;"),
		platform("HPR-1101", shared, "and that is the part HPR-1101"),
		platform("th 320-118 04", shared, "and that is the number TH 320 118 04 of References"),
		platform("Front damper", shared, "and that is the position Front damper"),
		platform("Levelling", shared, "and that is the trait Levelling"),
		platform("Leaf", shared, "and that is the value Leaf of Front suspension"),
		platform("Damper", shared, "and that is the family Damper"),
		value("beam & air", malformed, "is taken for one name; where it is two"),
		value("HPR-1101", shared, "and that is the part HPR-1101"),
		value("Front damper", shared, "and that is the position Front damper"),
		value("Levelling", shared, "and that is the trait Levelling"),
		value("h9", shared, "and that is the platform H9"),
		called("Traits", "Value", "7.1 t", "7.2 t", shared, "the value 7.1 t is also called .7.2 t., which is another measure"),
		called("Traits", "Value", "3/8 in", "8 mm", shared, "the value 3/8 in is also called .8 mm., which is another measure"),
		platform("TH7 / Tarnholt 7", malformed, "is taken for one name; where it is several, write , or ;"),
		platform("TH7 | Tarnholt 7", malformed, "is taken for one name"),
		platform("TH7 or Tarnholt 7", malformed, "is taken for one name"),
		value("Leaf", shared, "the name of the value Leaf of Front suspension"),
		value("independent", shared, "Air independent of Front suspension is also called .independent., and so is"),
		value("2012", malformed, "reads as a model year"),
		{name: "a year as a number under Also called", do: put("Platforms", "Also called", 2, "2012"),
			wants: []want{{malformed, "Platforms!G2", "reads as a model year"}}, most: 1},
	}
}
