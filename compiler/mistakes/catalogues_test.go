package mistakes

import "ferrule/out/markup"

// rowsOf says why a mistake in a row of conditions leads to more.
const rowsOf = "the vehicles that the row no longer names are told as well"

// inCatalogues are mistakes that only the catalogue as a whole shows.
func inCatalogues() []mistake {
	var out []mistake
	out = append(out, outOfPlace()...)
	out = append(out, withoutFamily()...)
	out = append(out, dragged()...)
	out = append(out, sortedSince()...)
	out = append(out, draggedSince()...)
	out = append(out, sortedAlone()...)
	return append(out, oddNumbers()...)
}

// put makes a mistake of one cell.
func put(sheet, head string, row int, value string) func(*books) {
	return func(b *books) { b.sheet(sheet).put(head, row, value) }
}

// fill makes a mistake of several cells, one below the other.
func fill(sheet, head string, row int, values ...string) func(*books) {
	return func(b *books) { b.sheet(sheet).fill(head, row, values...) }
}

// withoutFamilies clears what Positions says of families, so that what stands elsewhere tells.
func withoutFamilies(do func(*books)) func(*books) {
	return func(b *books) {
		b.sheet("Positions").removeColumn("Family")
		do(b)
	}
}

func outOfPlace() []mistake {
	place := func(name, sheet, head string, row int, value, at, says string) mistake {
		return mistake{name: name, do: put(sheet, head, row, value), wants: []want{{"part-out-of-place", sheet + "!" + at, says}}, most: 6, lines: 60,
			why: "limits, quantities and rules that hold for the wrong part are told as well"}
	}
	return []mistake{
		place("a restrictor where a damper belongs", "Fitment H7", "Front damper", 2, "HPR-3101", "J2", "what belongs there is Damper"),
		place("an air spring where a damper belongs", "Fitment H9", "Drive damper", 8, "HPR-5204", "K8", "family Air spring"),
		place("a height link where a valve belongs", "Fitment H9", "Rear ride-height valve", 16, "HPR-3402", "S16", "family Height link"),
		place("a bell crank as steering damper", "Fitment L4", "Steering damper", 10, "HPR-4101", "L10", "family Bell crank"),
		place("a kit of a bar as steering damper", "Fitment H7", "Steering damper", 15, "HPR-9201", "R15", "HPR-9201 at Steering damper"),
		place("a damper as second choice of a spring", "Fitment K26", "Front air spring", 10, "HPR-5102 or HPR-1106", "H10", "family Damper"),
		{name: "n/a for a size that a part has not", from: starter, do: func(b *books) {
			b.sheet("Parts").put("Line size", 7, "n/a")
		}, wants: []want{{"size-malformed", "Parts!F7", `leave Line size blank where there is none`}}},
		{name: "the years of one of two rows of a platform are blank", from: starter, do: func(b *books) {
			b.sheet("Vehicles").put("Years", 2, "")
		}, wants: []want{{"vehicles-blank", "Vehicles!B2", `all years of P10 \(2008 to 2020\).*write them, or any`}}},
		{name: "headings of two positions swapped", do: func(b *books) { b.sheet("Fitment H7").swap("Front damper", "Front air spring") },
			wants: []want{{"part-out-of-place", "Fitment H7", "headings of the two columns are swapped"}}, most: 12, lines: 160,
			why: "each platform's gaps and limits are told as well"},
		{name: "a part of no family that a position lists", do: put("Positions", "Family", 2, "Air spring"),
			wants: []want{{"part-out-of-place", "Positions", "what belongs there is Air spring"}}, most: 5, lines: 85, why: "each platform has its own vehicles"},
		{name: "a family that no part has, in Positions", do: put("Positions", "Family", 2, "Dampr"),
			wants: []want{{"reference-unknown", "Positions!N2", `did you mean Damper\?`}}},
		{name: "not before a family in Positions", do: put("Positions", "Family", 2, "not Damper"),
			wants: []want{{"condition-malformed", "Positions!N2", "write the families that do"}}},
		{name: "families of two rows of a position that differ", do: put("Positions", "Family", 3, "Air spring"),
			wants: []want{{"declared-twice", "Positions!A3", "Front damper"}}},
		{name: "any as family changes nothing", harmless: true, do: put("Positions", "Family", 2, "any")},
		{name: "a blank family in Positions changes nothing", harmless: true, do: withoutFamilies(func(*books) {})},
		{name: "a restrictor among dampers, and no families in Positions", do: withoutFamilies(put("Fitment H7", "Front damper", 2, "HPR-3101")),
			wants: []want{{"part-out-of-place", "Fitment H7!J2", "all other parts there are of the family Damper"}}, most: 4, lines: 40,
			why: "the restrictor's rules hold there as well"},
		{name: "headings of two positions swapped, and no families in Positions", do: withoutFamilies(func(b *books) {
			b.sheet("Fitment H7").swap("Front damper", "Front air spring")
		}), wants: []want{{"part-out-of-place", "Fitment H7", "headings of the two columns are swapped"}}, most: 12, lines: 160,
			why: "each platform's gaps and limits are told as well"},
		{name: "a damper among the restrictors", do: put("Fitment restrictors", "Fits", 2, "HPR-1101"), wants: []want{{"part-out-of-place", "Fitment restrictors!H2", "HPR-1101 at Front restrictor left"}}, most: 8, lines: 110,
			why: "every platform with such a line has vehicles of its own"},
		{name: "a damper as restrictor in the starter", from: starter, do: put("Fitment restrictors", "Fits", 2, "D-101"),
			wants: []want{{"part-out-of-place", "Fitment restrictors", "D-101 at Front restrictor"}}, most: 4, lines: 50, why: "both platforms have vehicles of their own"},
	}
}

func withoutFamily() []mistake {
	var out []mistake
	for _, c := range []struct{ name, part string }{
		{"a damper", "HPR-1101"}, {"a restrictor of a line", "HPR-3101"}, {"an anti-roll bar that only a kit holds", "HPR-2101"},
		{"a fixing set", "HPR-1590"}, {"a valve that a rule forbids", "HPR-3301"}, {"a steering damper", "HPR-1401"},
	} {
		out = append(out, mistake{name: c.name + " without a family", do: func(b *books) {
			s := b.sheet("Parts")
			s.put("Family", s.row("Part", c.part), markup.Cell{})
		}, wants: []want{{"family-missing", "Parts", c.part + " has no Family"}}, most: 4, lines: 45, why: "limits and calculated values no longer reach the part"})
	}
	return append(out,
		mistake{name: "a kit without a family of its own", harmless: true, do: func(b *books) {
			s := b.sheet("Parts")
			s.put("Family", s.row("Part", "HPR-9201"), markup.Cell{})
		}},
		mistake{name: "a part of the starter without a family", from: starter, do: func(b *books) {
			s := b.sheet("Parts")
			s.put("Family", s.row("Part", "R-601"), markup.Cell{})
		}, wants: []want{{"family-missing", "Parts", "R-601 has no Family"}}})
}

func dragged() []mistake {
	drag := func(name, sheet, head string, row int, at, says string, values ...string) mistake {
		return mistake{name: name, do: fill(sheet, head, row, values...), wants: []want{{"cell-dragged", sheet + "!" + at, says}}, most: 14, lines: 230, why: rowsOf}
	}
	return []mistake{
		drag("a precedence dragged", "Fitment H7", "Precedence", 2, "Y2", "Precedence climbs", "10", "11", "12", "13"),
		drag("a precedence dragged in the restrictors", "Fitment restrictors", "Precedence", 2, "I2", "from .10. to .15.", "10", "11", "12", "13", "14", "15"),
		drag("the last years of vehicles dragged", "Vehicles", "Years", 2, "B2", "from .2004-2008. to .2004-2010.", "2004-2008", "2004-2009", "2004-2010"),
		drag("single years of vehicles dragged into unknown ones", "Platforms", "Years", 2, "B2", "Years climbs", "2004-2019", "2004-2020", "2004-2021"),
		drag("the years of fitment rows dragged", "Fitment H7", "Years", 2, "B2", "changes which cell decides", "2004-2009", "2004-2010", "2004-2011"),
		drag("a size dragged", "Fitment restrictors", "Front air line", 2, "C2", "as dragging a cell makes it", "1/4 in", "1/5 in", "1/6 in"),
		drag("a part dragged into unknown numbers", "Fitment H7", "Front damper", 5, "J5", "no part is called", "HPR-1113", "HPR-1114", "HPR-1115"),
		drag("a platform dragged into unknown names", "Fitment H9", "Platform", 2, "A2", "H10|H11", "H9", "H10", "H11"),
		drag("a fact dragged", "Facts", "Front wheel travel [mm]", 2, "F2", "climbs by one", "220", "221", "222"),
		drag("what is on the road dragged", "Vehicles", "On the road", 2, "R2", "from .640. to .643.", "640", "641", "642", "643"),
	}
}

func oddNumbers() []mistake {
	odd := func(name, sheet, head string, row int, value, at, says string) mistake {
		return mistake{name: name, do: put(sheet, head, row, value), wants: []want{{"quantity-odd", sheet + "!" + at, says}}, most: 4, lines: 45,
			why: "it differs where the position takes another quantity"}
	}
	ahead := func(name, sheet string, row int, value string) mistake {
		return mistake{name: name, do: put(sheet, "Years", row, value), wants: []want{{"years-ahead", sheet + "!B" + string(rune('0'+row)), "years ahead of 2027"}}, most: 14, lines: 230, why: rowsOf}
	}
	return []mistake{
		odd("forty dampers for two", "Fitment H7", "Front damper", 2, "40 x HPR-1101", "J2", "more than twice"),
		odd("one damper for two", "Fitment H7", "Front damper", 2, "1 x HPR-1101", "J2", "Front damper takes 2; no note"),
		odd("two air springs for four", "Fitment H7", "Drive air spring", 10, "2 x HPR-5202", "O10", "Drive air spring takes 4"),
		odd("twenty links for one", "Fitment H9", "Front height link", 15, "20 x HPR-3401", "T15", "more than twice"),
		odd("a second choice of thirty", "Fitment H9", "Front damper", 5, "HPR-1107 or 30 x HPR-1106", "H5", "30 x HPR-1106"),
		odd("one valve for two", "Fitment L4", "Rear ride-height valve", 11, "1 x HPR-3302", "N11", "takes 2"),
		{name: "fifty in place of two, whatever a note says", do: func(b *books) {
			b.sheet("Fitment H7").put("Front damper", 2, "50 x HPR-1101")
			b.sheet("Fitment H7").put("Front damper note", 2, "Fifty to the box.")
		}, wants: []want{{"quantity-odd", "Fitment H7!J2", "50 x HPR-1101"}}, lines: 20, why: "the vehicle of the example has many traits"},
		ahead("a platform of years that are far off", "Platforms", 2, "2004-2109"),
		ahead("a platform of a year that is a slip", "Platforms", 5, "2015-2062"),
		ahead("a fitment row of years that are far off", "Fitment H7", 6, "2009-2081"),
		{name: "years two ahead of today", harmless: true, do: put("Fitment H9", "Years", 9, "2015-2026")},
	}
}
