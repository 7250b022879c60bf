package mistakes

// inAdvice are mistakes in Complaints and Inspections.
func inAdvice() []mistake {
	return []mistake{
		{name: "a complaint about a place that is misspelt", do: put("Complaints", "Position", 6, "Front dampr"),
			wants: []want{{"reference-unknown", "Complaints!G6", "did you mean Front damper"}}},
		{name: "a complaint about a family that is misspelt", do: put("Complaints", "Family", 4, "Flow restricter"),
			wants: []want{{"reference-unknown", "Complaints!H4", "did you mean Flow restrictor"}}},
		{name: "a complaint about no place", do: put("Complaints", "Position", 6, ""),
			wants: []want{{"value-invalid", "Complaints", "name the place, or the family"}}},
		{name: "a complaint about any place", from: starter, do: put("Complaints", "Position", 2, "any"),
			wants: []want{{"condition-malformed", "Complaints!D2", "tells nobody where to look"}}},
		{name: "a complaint without how it helps", do: put("Complaints", "How it helps", 6, ""),
			wants: []want{{"value-invalid", "Complaints", "How it helps"}}},
		{name: "a complaint about a place that its vehicles lack", do: func(b *books) {
			b.sheet("Complaints").put("Platform", 8, "L4")
			b.sheet("Complaints").put("Front suspension", 8, "Leaf")
		}, wants: []want{{"place-absent", "Complaints!G8", "Bell crank, which none of its vehicles of L4 has"}}},
		{name: "a complaint that no vehicle can have", do: put("Complaints", "Platform", 8, "L4"),
			wants: []want{{"row-unreachable", "Complaints!A8", "no vehicle that exists"}}},
		{name: "a complaint of vehicles that have none of its places", do: put("Complaints", "Rear suspension", 12, ""),
			wants: []want{{"complaint-unanswered", "Complaints!G12", "nothing that is fitted on these vehicles of L4"}}, lines: 20, why: "each platform has an example"},
		{name: "a complaint that is misspelt in one row", do: put("Complaints", "Complaint", 5, "rocks from side to sid"),
			wants: []want{{"complaint-alike", "Complaints!A5", "other rows say .rocks from side to side"}}},
		{name: "a place of a complaint twice, in different order", do: func(b *books) {
			b.sheet("Complaints").insert(7, "dives when braking", "H7", "", "", "", "", "Front damper", "", "3", "Slows the nose.")
		}, wants: []want{{"complaint-order", "Complaints!I6", "under Order 1 and 3"}}, lines: 18, why: "the finding has an example"},
		{name: "an order in words", do: put("Complaints", "Order", 6, "first"),
			wants: []want{{"value-invalid", "Complaints!I6", "whole number"}}},
		{name: "a condition of a complaint that is misspelt", do: put("Complaints", "Front suspension", 8, "Air independant"),
			wants: []want{{"reference-unknown", "Complaints!C8", "did you mean Air independent"}}},
		{name: "a heading of the complaints that is misspelt", do: func(b *books) { b.sheet("Complaints").head("Check first", "Check frist") },
			wants: []want{{"header-unknown", "Complaints", "write Check first"}}},
		{name: "an inspection at a level that is none", do: put("Inspections", "Level", 2, "dangerous"),
			wants: []want{{"value-invalid", "Inspections!G2", "danger"}}},
		{name: "an inspection that no vehicle meets", do: put("Inspections", "Platform", 2, "L4"),
			wants: []want{{"row-unreachable", "Inspections!A2", "no vehicle that exists"}}},
		{name: "an inspection of a place that its vehicles lack", do: put("Inspections", "Platform", 5, "L4"),
			wants: []want{{"place-absent", "Inspections!F5", "Front air spring, which none of its vehicles of L4 has"}}},
		{name: "an inspection that went", since: true, do: func(b *books) { b.sheet("Inspections").remove(2) },
			wants: []want{{"protection-lost", "Inspections!A2", "the danger .Cracks along both lower edges"}}, lines: 18, why: "the finding has an example"},
		{name: "an inspection that is a note now", since: true, do: put("Inspections", "Level", 3, "note"),
			wants: []want{{"protection-lost", "Inspections!A3", "has only a note"}}, lines: 18, why: "the finding has an example"},
		{name: "the sheet of complaints called by one", do: func(b *books) { b.sheet("Complaints").Name = "Complaint" },
			wants: []want{{"sheet-ignored", "Complaint", "Complaints"}}},
	}
}
