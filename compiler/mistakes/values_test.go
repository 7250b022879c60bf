package mistakes

// inValues are mistakes with sizes and quantities.
func inValues() []mistake {
	put := func(head string, row int, value any) func(*books) {
		return func(b *books) { b.sheet("Parts").put(head, row, value) }
	}
	const length = "Extended length [mm]"
	return []mistake{
		{name: "a length shown in inches under millimetres", do: put(length, 5, shown("24", `0" in"`)),
			wants: []want{{"cell-number-mangled", "Parts!G5", "shows 24 in and holds the number 24, which is read as 24 mm"}}},
		{name: "a length shown in metres by a scaled format", do: put(length, 5, shown("640", "0.00,")),
			wants: []want{{"cell-number-mangled", "Parts!G5", "shows 0.64 and holds the number 640"}}},
		{name: "a length shown as a percentage", do: put(length, 5, shown("6.4", "0%")),
			wants: []want{{"cell-number-mangled", "Parts!G5", "shows 640% and holds the number 6.4, which is read as 6.4 mm"}}},
		{name: "a length shown with the header's unit", do: put(length, 5, shown("640", `0" mm"`)), harmless: true},
		{name: "a length shown in the header's unit by the section for its value", do: put(length, 5, shown("640", `[<1000]0" mm";0" m"`)), harmless: true},
		{name: "a length shown in another unit by the section for its value", do: put(length, 5, shown("640", `[<100]0" mm";0" cm"`)),
			wants: []want{{"cell-number-mangled", "Parts!G5", "shows 640 cm and holds the number 640, which is read as 640 mm"}}},
		{name: "a column shown in another unit than its header's", do: func(b *books) {
			for row := 4; row < 12; row++ {
				put(length, row, shown("640", `0" cm"`))(b)
			}
		}, wants: []want{{"cell-number-mangled", "Parts!G4", "8 cells under Extended length are shown in another unit.*first: the cell shows 640 cm"}}, lines: 30, why: "each cell is named"},
		{name: "a line size shown in millimetres and stored without a unit", do: put("Line size", 53, shown("6", `0" mm"`)),
			wants: []want{{"cell-number-mangled", "Parts!F53", "shows 6 mm and holds the number 6"}}},
		{name: "closed and open length in one cell", do: put(length, 5, "380/612"),
			wants: []want{{"quantity-malformed", "Parts!G5", "a range such as.* 380-612"}}},
		{name: "a half millimetre as a fraction", do: put(length, 5, "640 1/2"),
			wants: []want{{"quantity-malformed", "Parts!G5", "fractions are for inches and feet"}}},
		{name: "a third of an inch", do: put(length, 5, "25 1/3 in"),
			wants: []want{{"quantity-malformed", "Parts!G5", "2, 4, 8, 16, 32 or 64 below"}}},
		{name: "a thread under bar diameters", do: put("Bar diameter [mm]", 37, "1/4-20"),
			wants: []want{{"quantity-malformed", "Parts!I37", "a thread or a slip"}}},
		{name: "tube as outside and inside diameter", do: put("Line size", 53, "8/6 mm"),
			wants: []want{{"size-malformed", "Parts!F53", "write 8x1 mm"}}},
		{name: "tube as outside and inside diameter without a unit", do: put("Line size", 53, "8/6"),
			wants: []want{{"size-malformed", "Parts!F53", "write 8x1 mm"}}},
		{name: "a third as a line size", do: put("Line size", 53, "1/3 in"),
			wants: []want{{"size-malformed", "Parts!F53", "2, 4, 8, 16, 32 or 64 below"}}},
		{name: "two values that disagree", do: put(length, 5, "640 mm (25.9 in)"),
			wants: []want{{"quantity-disagrees", "Parts!G5", "640 mm is 25.197 in"}}},
		{name: "two coarse values more than 6 % apart", do: put(length, 5, "25 in (700 mm)"),
			wants: []want{{"quantity-disagrees", "Parts!G5", "25 in is 635 mm"}}},
		{name: "extended and compressed length swapped", do: func(b *books) { put(length, 9, "340")(b); put("Compressed length [mm]", 9, "570")(b) },
			wants: []want{{"order-reversed", "Parts!G9", "340 mm .* 570 mm"}}, most: 5, lines: 110, why: "limits miss the length as well"},
		{name: "extended and compressed length of a damper that no limit is about swapped", do: func(b *books) {
			put(length, 17, "365")(b)
			put("Compressed length [mm]", 17, "590")(b)
		}, wants: []want{{"order-reversed", "Parts!G17", "in the .* other parts of the family Damper"}}},
		{name: "two values that agree", do: put(length, 5, "640 mm [25.2 in]"), harmless: true},
		{name: "a date among threads", do: put("Thread", 5, "2024-08-01"),
			wants: []want{{"cell-date-mangled", "Parts!J5", "among the threads of Thread"}}},
		{name: "a date cell among threads", do: put("Thread", 5, dated("2024-08-01", "yyyy-mm-dd")),
			wants: []want{{"cell-date-mangled", "Parts!J5", "2024-08-01"}}},
		{name: "an inch thread among metric ones", do: put("Thread", 5, "5/8-11 UNC"), harmless: true},
		{name: "a size among threads", do: put("Thread", 5, "5/8 in"), harmless: true},
		{name: "a comma in a length where the decimal sign is a point", do: put(length, 5, "640,5"),
			wants: []want{{"quantity-malformed", "Parts!G5", "comma is no decimal sign here; write 640.5"}}, lines: 16, why: "the length that is missing is told by the limit as well"},
		{name: "a pressure among lengths", do: put(length, 5, "120 psi"),
			wants: []want{{"quantity-malformed", "Parts!G5", "120 psi is a pressure, and Extended length is a length"}}},
		{name: "a temperature among lengths", do: put(length, 5, "93 °C"),
			wants: []want{{"quantity-malformed", "Parts!G5", "is a temperature"}}},
		{name: "the most that a length may be", do: put(length, 5, "640 max"),
			wants: []want{{"property-missing", "Parts!G5", "how far it may go"}}, most: 3, why: "what is calculated from the length is missing too"},
		{name: "how far a fact may go", do: func(b *books) { b.sheet("Facts").put("Front wheel travel [mm]", 2, "max 180") },
			wants: []want{{"quantity-malformed", "Facts!F2", "a fact says what it is"}}},
		{name: "a fact shown in inches", do: func(b *books) { b.sheet("Facts").put("Front wheel travel [mm]", 2, shown("180", `0.0" in"`)) },
			wants: []want{{"cell-number-mangled", "Facts!F2", "read as 180 mm"}}},
		{name: "feet and inches under millimetres", do: put(length, 5, `2'1 1/4"`),
			wants: []want{{"size-mixed-units", "Parts!G5", "both systems"}}},
		{name: "a hyphen between number and unit", do: put(length, 5, "640-mm"), harmless: true},
		{name: "a remark behind a length", do: put(length, 5, "640 approx"),
			wants: []want{{"quantity-malformed", "Parts!G5", "approx is not understood"}}, lines: 16, why: "the limit misses the length"},
	}
}
