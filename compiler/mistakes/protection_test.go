package mistakes

// inProtection are mistakes with what protects, and with what is public.
func inProtection() []mistake {
	return []mistake{
		{name: "a column Cost", harmless: true, do: func(b *books) {
			b.sheet("Parts").addColumn("Cost", "44.1", "46.2", "51")
		}},
		{name: "a column Supplier", harmless: true, do: func(b *books) {
			b.sheet("Parts").addColumn("Supplier", "Sandbank Mill", "Sandbank Mill")
		}},
		{name: "a column that is published without a word", since: true, do: func(b *books) {
			b.sheet("Parts").addColumn("Net weight [kg]", "2.1", "2.2")
		}, wants: []want{{"column-published", "Parts!N2", `did not publish Net weight of Parts`}}},
		{name: "a percentage that is published without a word", from: starter, since: true, do: func(b *books) {
			b.sheet("Parts").addColumn("Preload [%]", "20", "25")
		}, wants: []want{{"column-published", "Parts!M2", `did not publish Preload of Parts`}}},
		{name: "another unit in the header of a length", since: true, do: func(b *books) {
			b.sheet("Parts").head("Extended length [mm]", "Extended length [in]")
		}, wants: []want{{"unit-changed", "Parts!G2", `has \[in\] and had \[mm\] in the earlier release, over 27 cells`}}},
		{name: "another unit in the header of a fact", since: true, do: func(b *books) {
			b.sheet("Facts").head("Front wheel travel [mm]", "Front wheel travel [in]")
		}, wants: []want{{"unit-changed", "Facts!F2", `of Front wheel travel has \[in\] and had \[mm\]`}},
			most: 20, lines: 24, why: "the limits that the fact breaks stand beside it"},
		{name: "a supplier under public columns", from: starter, since: true, do: func(b *books) {
			b.sheet("Parts").addColumn("Supplier", "Sandbank Mill", "Sandbank Mill")
			s := b.sheet("Settings")
			s.put("Value", s.row("Setting", "public columns"), "Thread, Supplier")
		}, wants: []want{{"column-published", "Parts!M2", `did not publish Supplier of Parts`}}},
		{name: "a public column with a letter too few", do: func(b *books) {
			s := b.sheet("Settings")
			s.put("Value", s.row("Setting", "public columns"), "Thred")
		}, wants: []want{{"reference-unknown", "Settings!B9", `did you mean Thread\?`}}},
		{name: "a column that stands under both settings", do: func(b *books) {
			b.sheet("Settings").insert(9, "internal columns", "Thread")
		}, wants: []want{{"declared-twice", "Settings!B10", `take it out of one of the two`}}},
		{name: "a column of the sheet's own under internal columns", do: func(b *books) {
			b.sheet("Settings").insert(9, "internal columns", "Summary")
		}, wants: []want{{"reference-unknown", "Settings!B9", `always published`}}},
		{name: "a sheet of rules is deleted", since: true, do: func(b *books) {
			b.drop("Compatibility")
		}, wants: []want{{"protection-lost", "Compatibility", `all rows of Compatibility \(7\) went .*forbid the family Flow restrictor`}}, lines: 40, why: "what went is listed"},
		{name: "a rule is deleted", since: true, do: func(b *books) {
			b.sheet("Compatibility").remove(2)
		}, wants: []want{{"protection-lost", "Compatibility!B2", `said forbid the family Flow restrictor where Levels while driving Yes, and this one does not`}}},
		{name: "forbid is turned into caution", since: true, do: func(b *books) {
			b.sheet("Compatibility").put("Effect", 2, "caution")
		}, wants: []want{{"protection-lost", "Compatibility!B2", `has only caution the family Flow restrictor`}}},
		{name: "forbid is turned into caution, in the starter", from: starter, since: true, do: func(b *books) {
			b.sheet("Compatibility").put("Effect", 2, "caution")
		}, wants: []want{{"protection-lost", "Compatibility!B2", `has only caution the family Flow restrictor`}}, most: 3, lines: 20,
			why: "that nothing is forbidden any more is told beside what it leaves"},
		{name: "a rule holds for fewer vehicles", since: true, do: func(b *books) {
			b.sheet("Compatibility").put("Platform", 3, "H9")
		}, wants: []want{{"protection-lost", "Compatibility!B3", `it is gone for H7; K26`}}, lines: 16, why: "the vehicles that it left out are listed"},
		{name: "a required part is not required", since: true, do: func(b *books) {
			s := b.sheet("Compatibility")
			s.remove(s.row("Effect", "require"))
		}, wants: []want{{"protection-lost", "Compatibility!A4", `said require HPR-2102 with HPR-2302`}}},
		{name: "a Line size is blank", since: true, do: func(b *books) {
			b.sheet("Parts").put("Line size", b.sheet("Parts").row("Line size", "1/4 in"), "")
		}, wants: []want{{"protection-lost", "Parts", `had the Line size 1/4 in of`}}},
		{name: "all Line sizes are blank", from: starter, since: true, do: func(b *books) {
			b.sheet("Parts").put("Line size", 11, "")
			b.sheet("Parts").put("Line size", 12, "")
		}, wants: []want{{"protection-lost", "Parts!F11", `the Line size of several parts \(2\)`}}},
		{name: "the Air line of a position is blank", from: starter, since: true, do: func(b *books) {
			b.sheet("Positions").put("Air line", 6, "")
		}, wants: []want{{"protection-lost", "Positions!G6", `had the Air line Front air line of Front restrictor left`}}, lines: 14, why: "the vehicles are listed"},
		{name: "a limit is turned into a warning", since: true, do: func(b *books) {
			b.sheet("Limits").put("Effect", 2, "warning")
		}, wants: []want{{"protection-lost", "Limits!A2", `has only .* as a warning`}}},
		{name: "a limit is deleted", from: starter, since: true, do: func(b *books) {
			b.sheet("Limits").remove(3)
		}, wants: []want{{"protection-lost", "Limits!A3", `"Damper is long enough"`}}},
		{name: "the sheet of limits is deleted", since: true, do: func(b *books) {
			b.drop("Limits")
		}, wants: []want{{"protection-lost", "Limits", `all rows of Limits \(2\) went`}}, most: 8, lines: 40, why: "facts that nothing uses any more are told as notes"},
		{name: "a caution is deleted", since: true, do: func(b *books) {
			s := b.sheet("Cautions")
			s.remove(s.row("Caution", "stands"))
		}, wants: []want{{"protection-lost", "Cautions!A3", `had the danger "stands"`}}, most: 10, lines: 14, why: "every cell that names it is an error"},
		{name: "a danger is turned into a note", since: true, do: func(b *books) {
			b.sheet("Cautions").put("Level", 2, "note")
		}, wants: []want{{"protection-lost", "Cautions!A2", `has only a note`}}},
		{name: "the caution of a part is taken out", from: starter, since: true, do: func(b *books) {
			b.sheet("Parts").put("Cautions", 12, "")
		}, wants: []want{{"protection-lost", "Parts!A12", `had the caution "air", and this one does not for R-602`}}},
		{name: "the column Cautions of Parts is deleted", since: true, do: func(b *books) {
			b.sheet("Parts").removeColumn("Cautions")
		}, wants: []want{{"protection-lost", "Parts", `cautions of parts`}}, lines: 40, why: "what went is listed"},
		{name: "an exception in a comment", do: func(b *books) {
			b.comment("Fitment H7", "J2", "not with the kneeling option")
		}, wants: []want{{"cell-comment", "Fitment H7!J2", `1 cell has a comment`}}},
		{name: "a comment in the starter", from: starter, do: func(b *books) {
			b.comment("Parts", "A3", "discontinued, see the list on the wall")
		}, wants: []want{{"cell-comment", "Parts!A3", `1 cell has a comment`}}},
		{name: "red means discontinued", do: func(b *books) {
			b.paint("Parts", "A5", "A6", "FF0000")
		}, wants: []want{{"cell-colour", "Parts!A5", `2 cells have a colour, under Part`}}},
		{name: "a whole row in grey", from: starter, do: func(b *books) {
			b.paint("Parts", "A4", "L4", "BFBFBF")
		}, wants: []want{{"cell-colour", "Parts!A4", `under Part, Name`}}},
		{name: "a fitment cell in yellow", do: func(b *books) {
			s := b.sheet("Fitment H9")
			at := s.at("Front damper", s.filled("Front damper"))
			b.paint("Fitment H9", at, at, "FFFF00")
		}, wants: []want{{"cell-colour", "Fitment H9", `1 cell has a colour, under Front damper`}}},
		{name: "a column in one colour", harmless: true, do: func(b *books) {
			b.paint("Parts", "A1", "A200", "DDEBF7")
		}},
		{name: "the Family of a forbidden part is blank", since: true, do: func(b *books) {
			s := b.sheet("Parts")
			s.put("Family", s.row("Family", "Flow restrictor"), "")
		}, wants: []want{{"protection-lost", "Compatibility!B2", `Flow restrictor where .* does not for HPR-`}},
			lines: 16, why: "what is lost is told beside what is missing"},
	}
}
