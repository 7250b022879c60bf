package mistakes

import "slices"

// inHeadings are headings that mean nothing.
func inHeadings() []mistake {
	head := func(from origin, sheet, old, as, says string) mistake {
		return mistake{name: old + " of " + sheet + " called " + as, from: from, do: func(b *books) { b.sheet(sheet).head(old, as) },
			wants: []want{{"header-unknown", sheet, says}}}
	}
	out := []mistake{
		head(demo, "Fitment H7", "Front suspension", "Front susp.", "write Front suspension"),
		head(demo, "Fitment H7", "Front suspension", "Suspension, front axle", "values of Front suspension"),
		head(demo, "Fitment H7", "Front suspension", "FS", "values of Front suspension"),
		head(demo, "Fitment H7", "Levelling", "Leveling", "write Levelling"),
		head(demo, "Fitment H7", "Rear suspension", "Axle at the back", "values of Rear suspension"),
		head(demo, "Fitment H7", "Drive damper", "Dampers of the drive axle", "numbers of parts"),
		head(demo, "Vehicles", "Front suspension", "Frnt suspension", "write Front suspension"),
		head(demo, "Vehicles", "Levelling", "Ride height by", "values of Levelling"),
		head(demo, "Vehicles", "Years", "MY", "write Years"),
		head(starter, "Fitment", "Front axle rating", "Rating, front", "write Front axle rating"),
		head(starter, "Fitment", "Precedence", "Precedance", "write Precedence"),
		head(starter, "Fitment restrictors", "Levelling", "Level", "write Levelling"),
		head(starter, "Compatibility", "Levelling", "Levels", "write Levelling"),
		head(starter, "Kits", "Quantity", "Qty each", "no column of a Kits sheet"),
		head(starter, "References", "Source", "Sorce", "write Source"),
	}
	for _, m := range []mistake{
		head(demo, "Fitment H7", "Years", "Year", "write Years"),
		head(demo, "Fitment H7", "Years", "Model years", "write Years"),
		head(demo, "Positions", "Coverage", "Coverge", "write Coverage"),
	} {
		m.lines, m.why = 16, "a finding that is accepted is about other vehicles"
		out = append(out, m)
	}
	facts := head(starter, "Facts", "Front suspension", "Front sus.", "write Front suspension")
	facts.lines, facts.why = 14, "the fact that the heading makes is told as unused"
	out = append(out, facts)
	out = append(out, head(starter, "Positions", "Front suspension", "Suspension", "write Front suspension"))
	for _, as := range []string{"Frnt damper", "Damper front"} {
		m := head(demo, "Fitment H7", "Front damper", as, "write Front damper")
		m.most, m.lines, m.why = 4, 30, "rows that the column would tell apart could be one without it"
		out = append(out, m)
	}
	return slices.Concat(out, yearColumns(), []mistake{
		{name: "a column of a position that is not declared", do: func(b *books) {
			b.sheet("Fitment H7").addColumn("Rear air dryer", "HPR-1101", "HPR-1102")
		}, wants: []want{{"header-unknown", "Fitment H7", "declare the position on a Positions sheet"}}},
		{name: "a column of the position opposite", from: starter, do: func(b *books) {
			b.sheet("Fitment").addColumn("Rear damper", "D-101", "D-102")
		}, wants: []want{{"header-unknown", "Fitment", "^[^?]*$"}}},
		{name: "a column of notes of our own", do: func(b *books) {
			b.sheet("Fitment H7").addColumn("To do", "ask the foundry", "look at the drawing of the arm again")
		}, wants: []want{{"header-unknown", "Fitment H7", "a sheet whose name starts with _"}}},
	})
}

// yearColumns are From and To in place of Years.
func yearColumns() []mistake {
	split := func(sheet, from, to string) mistake {
		return mistake{name: from + " and " + to + " for Years in " + sheet, do: func(b *books) {
			s := b.sheet(sheet)
			if sheet != "Compatibility" && sheet != "Positions" {
				s.removeColumn("Years")
			}
			s.addColumn(from, "2009", "2010", "2009")
			s.addColumn(to, "2012", "2014", "2011")
		}, wants: []want{{"header-unknown", sheet, "one column Years, as 2007-2012"}},
			most: 5, lines: 45, why: "the years of the other rows are gone with the column"}
	}
	return []mistake{
		split("Fitment H7", "From", "To"),
		split("Fitment H7", "Year from", "Year to"),
		split("Vehicles", "Start", "End"),
		split("Facts", "From", "To"),
		split("Facts", "First year", "Last year"),
		split("Compatibility", "From", "To"),
		split("Positions", "From", "To"),
		{name: "From and To beside Years in Facts", do: func(b *books) {
			s := b.sheet("Facts")
			s.addColumn("From", "2009", "2010", "2009")
			s.addColumn("To", "2012", "2014", "2011")
		}, wants: []want{{"header-unknown", "Facts", "one column Years, as 2007-2012"}}},
		{name: "a fact of numbers that read like years", do: func(b *books) {
			b.sheet("Facts").addColumn("Wheel load [kg]", "2009", "2010", "2009")
		}, wants: []want{{"fact-unused", "Facts", "no limit needs Wheel load"}}},
		{name: "From and To for Years in Platforms", do: func(b *books) {
			s := b.sheet("Platforms")
			s.head("Years", "From")
			s.addColumn("To", "2019", "2026", "2015", "2026")
			s.fill("From", 2, "2004", "2012", "1998", "2015")
		}, wants: []want{{"column-missing", "Platforms", "From.*To.*one column Years"}}},
	}
}
