package mistakes

// inWholeColumns are faults that all cells of a column share: told once, with all of them.
func inWholeColumns() []mistake {
	column := func(name, sheet, head string, code, at, says string, to func(text string) any) mistake {
		return mistake{name: name, do: func(b *books) {
			s := b.sheet(sheet)
			for row := 2; row <= len(s.Rows); row++ {
				if text := s.get(head, row); text != "" {
					s.put(head, row, to(text))
				}
			}
		}, wants: []want{{code, at, says}}, most: 3, lines: 130, why: "each cell is named with what to do"}
	}
	format := func(code string) func(string) any { return func(text string) any { return shown(text, code) } }
	return []mistake{
		column("lengths as percentages", "Parts", "Extended length [mm]", "cell-number-mangled", "Parts!G2",
			"^27 cells under Extended length are shown by a number format as other numbers", format("0%")),
		column("lengths scaled", "Parts", "Extended length [mm]", "cell-number-mangled", "Parts!G2",
			"^27 cells under Extended length are shown by a number format as other numbers", format("0.0,")),
		column("facts as percentages", "Facts", "Front wheel travel [mm]", "cell-number-mangled", "Facts!F2",
			"^5 cells under Front wheel travel", format("0%")),
		column("quantities as percentages", "Kits", "Quantity", "cell-number-mangled", "Kits!C2",
			"^36 cells under Quantity", format("0%")),
		column("years as dates", "Vehicles", "Years", "cell-date-mangled", "Vehicles!B2",
			"^17 cells under Years hold dates; the first: the cell holds the date 2009-01-01.*\n.*type 2009; so for all",
			func(string) any { return dated("2009-01-01", "yyyy") }),
		column("diameters as dates", "Parts", "Bar diameter [mm]", "cell-date-mangled", "Parts!I37",
			"^12 cells under Bar diameter hold dates", func(string) any { return dated("1900-02-10", "") }),
	}
}
