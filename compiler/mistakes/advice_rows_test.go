package mistakes

import "ferrule/out/markup"

// inAdviceRows are rows of Complaints and Inspections in which a cell was forgotten, exchanged or copied.
func inAdviceRows() []mistake {
	const odd, alike = "advice-odd", "inspection-alike"
	exchanged := func(sheet, one, other string, row int, at, says string) mistake {
		return mistake{name: one + " and " + other + " exchanged", do: func(b *books) {
			s := b.sheet(sheet)
			x, y := s.get(one, row), s.get(other, row)
			s.put(one, row, markup.Words(y))
			s.put(other, row, markup.Words(x))
		}, wants: []want{{odd, sheet + "!" + at, says}}, most: 1}
	}
	copied := func(name, head, value, says string) mistake {
		return mistake{name: "an inspection copied, " + name, do: func(b *books) {
			s := b.sheet("Inspections")
			s.Rows = append(s.Rows, append([]markup.Cell(nil), s.Rows[3]...))
			s.put(head, len(s.Rows), value)
		}, wants: []want{{alike, "Inspections!A7", says}}, most: 4, lines: 70, why: "each platform has vehicles of its own"}
	}
	return []mistake{
		{name: "a level of an inspection that was forgotten", do: put("Inspections", "Level", 3, ""),
			wants: []want{{odd, "Inspections!G3", "Level is blank, which is a note.*\n.*or note, if that is meant"}}, most: 1},
		{name: "the last check of a complaint that was forgotten", do: put("Complaints", "Check first", 6, ""),
			wants: []want{{odd, "Complaints!A6", "dives when braking. has nothing under Check first"}}, most: 1},
		exchanged("Inspections", "What to look at", "Why", 3, "A3", "seem to have changed places"),
		exchanged("Complaints", "How it helps", "Check first", 3, "J3", "says what another row says under Check first"),
		{name: "why to look filled from what to look at", do: func(b *books) {
			s := b.sheet("Inspections")
			s.put("Why", 4, markup.Words(s.get("What to look at", 4)))
		}, wants: []want{{odd, "Inspections!A4", "of the row say the same"}}, most: 1},
		copied("another level", "Level", "note", "under Level warning and note"),
		copied("a letter less", "What to look at", "Broken leaves, and the bolts that hold the pak", "hold the pak"),
		copied("as it was", "Source", "common practice, no source", "twice for these vehicles"),
	}
}
