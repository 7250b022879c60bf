package mistakes

import "strings"

// inSheetNames are sheets whose names begin with no kind of sheet, and copies.
func inSheetNames() []mistake {
	rename := func(from origin, name, as, kind string) mistake {
		return mistake{name: name + " called " + as, from: from, do: func(b *books) { b.sheet(name).Name = as },
			wants: []want{{"sheet-ignored", as, "looks like an? " + kind + " sheet"}}}
	}
	out := []mistake{
		rename(starter, "Compatibility", "Compatability", "Compatibility"),
		rename(demo, "Compatibility", "Compatiblity rules", "Compatibility"),
		rename(demo, "Fitment H7", "Fitmant H7", "Fitment"),
		rename(starter, "Fitment restrictors", "Fitmant restrictors", "Fitment"),
		rename(demo, "Fitment H7", "H7 what fits", "Fitment"),
		rename(starter, "Platforms", "Platfroms", "Platforms"),
		rename(starter, "Traits", "Trait", "Traits"),
		rename(starter, "Vehicles", "Vehicels", "Vehicles"),
		rename(starter, "Vehicles", "All vehicles", "Vehicles"),
		rename(starter, "Positions", "Postions", "Positions"),
		rename(starter, "Parts", "Partz", "Parts"),
		rename(starter, "Parts", "Sheet7", "Parts"),
		rename(starter, "Kits", "Kit", "Kits"),
		rename(starter, "References", "Refrences", "References"),
		rename(starter, "Sizes", "Szies", "Sizes"),
		rename(starter, "Facts", "Fact", "Facts"),
		rename(starter, "Limits", "Limts", "Limits"),
		rename(starter, "Calculated", "Calculatd", "Calculated"),
		rename(starter, "Cautions", "Causions", "Cautions"),
		rename(starter, "Settings", "Setings", "Settings"),
		{name: "Accepted called Acepted", do: func(b *books) { b.sheet("Accepted").Name = "Acepted" },
			wants: []want{{"sheet-ignored", "Acepted", "looks like an Accepted sheet"}}},
	}
	old := rename(starter, "Fitment", "old Fitment", "Fitment")
	old.most, old.lines, old.why = 3, 26, "what is accepted and what is to be asked counts other stretches"
	return append(out, append(copies(), old)...)
}

func copies() []mistake {
	return []mistake{
		{name: "a copy of a sheet whose advised name another sheet has", do: func(b *books) { b.twin("Fitment H7", "H7 Fitments") },
			wants: []want{{"sheet-ignored", "H7 Fitments", `rename it, to "Fitment H7 2"`}}},
		{name: "a copy of a sheet as a program names it", do: func(b *books) { b.twin("Fitment H7", "Copy of Fitment H7") },
			wants: []want{{"sheet-ignored", "Copy of Fitment H7", "looks like a Fitment sheet"}}},
		{name: "a copy of a sheet with a number", do: func(b *books) { b.twin("Fitment H7", "Fitment H7 (2)") },
			wants: []want{{"sheet-twice", "Fitment H7 (2)", "say the same in all of their rows"}}},
		{name: "a copy of a sheet in which a cell was changed", do: func(b *books) {
			b.twin("Fitment H7", "Fitment H7 (2)").put("Front damper", 2, "HPR-1102")
		}, wants: []want{{"sheet-twice", "Fitment H7 (2)!A2", "one of \\d+ rows differs"}}},
		{name: "a copy of the parts with other families", do: func(b *books) {
			s := b.twin("Parts", "Parts old")
			for row := 2; row < 12; row++ {
				s.put("Family", row, "Damper old")
			}
		}, wants: []want{{"sheet-twice", "Parts old", "10 of 8\\d rows differ"}}},
		{name: "a copy of the vehicles", from: starter, do: func(b *books) { b.twin("Vehicles", "Vehicles copy") },
			wants: []want{{"sheet-twice", "Vehicles copy", "say the same"}}},
		{name: "a copy of the rules with one more", from: starter, do: func(b *books) {
			s := b.twin("Compatibility", "Compatibility new")
			s.insert(2, "D-101", "", "", "", "", "caution", "Mind the stem.")
		}, wants: []want{{"sheet-twice", "Compatibility new!A2", "one of 4 rows differs"}}},
		{name: "an older copy of a workbook", do: func(b *books) {
			b.twinBook("parts.xlsx", "parts 2026.xlsx", func(old *books) {
				s := old.sheet("Parts")
				s.put("Family", 3, "Dampers")
				s.remove(9)
				s.put("Status", 5, "withdrawn")
			})
		}, wants: []want{{"sheet-twice", "!", "workbooks parts.xlsx and parts 2026.xlsx are nearly the same: 3 of"}}},
		{name: "an older copy of the workbook with the vehicles", do: func(b *books) {
			b.twinBook("vehicles.xlsx", "vehicles.old.xlsx", func(old *books) {
				s := old.sheet("Vehicles")
				s.put("On the road", 2, "1")
				old.sheet("Settings").put("Value", 4, "2025.1")
			})
		}, wants: []want{{"sheet-twice", "!", "workbooks vehicles.xlsx and vehicles.old.xlsx are nearly the same: 2 of"}}},
		{name: "a workbook with a further name", do: func(b *books) { b.twinBook("fitment.xlsx", "fitment copy.xlsx", nil) },
			wants: []want{{"workbook-twice", "!", "same cells"}}},
		{name: "other sheets", harmless: true, do: func(b *books) {
			b.add("Parts", "Notes", []string{"Ask the foundry about arms"})
			b.add("Parts", "Sheet1")
			b.add("Parts", "Pivot", []string{"Row Labels", "Count of Part", "Sum of Quantity"}, []string{"Damper", "12", "24"})
			b.add("Parts", "Charts", []string{"Month", "Sold"}, []string{"May", "12"})
			b.add("Parts", "Prices", []string{"Part", "Price"}, []string{"HPR-1101", "120"})
			b.add("Parts", "Notes on fitment", []string{"Arms are cast since 2011"})
		}},
		{name: "a rule sheet with another name that is for us only", harmless: true, do: func(b *books) {
			b.twin("Compatibility", strings.Repeat("_", 1)+"Compatability")
		}},
	}
}
