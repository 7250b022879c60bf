package mistakes

// samples are mistakes of every kind, a few of each.
func samples() []mistake {
	return []mistake{
		{name: "a part number with a letter too many", do: func(b *books) {
			b.sheet("Fitment H7").put("Front damper", 2, "HPR-1101X")
		}, wants: []want{{"part-unknown", "Fitment H7!J2", `HPR-1101X`}}},
		{name: "a trait's value with a letter too few", do: func(b *books) {
			s := b.sheet("Fitment H7")
			s.put("Levelling", s.row("Levelling", "Mechanical"), "Mechancal")
		}, wants: []want{{"reference-unknown", "Fitment H7!G19", `did you mean Mechanical\?`}},
			most: 4, lines: 40, why: "the row offered what two other parts need beside them, and that is never held back"},
		{name: "a text in place of a quantity", from: starter, do: func(b *books) {
			b.sheet("Positions").put("Quantity", 2, "two")
		}, wants: []want{{"value-invalid", "Positions!E2", `whole number`}}},
		{name: "spaces around a name", harmless: true, do: func(b *books) {
			b.sheet("Fitment H7").put("Front damper", 2, " HPR-1101 ")
		}},
	}
}
