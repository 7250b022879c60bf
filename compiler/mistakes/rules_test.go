package mistakes

// eachCell says why a mistake in a row of rules leads to more.
const eachCell = "each cell that the row forbids is a finding, and the report tells them at the row"

// inRules are mistakes in rows of Compatibility.
func inRules() []mistake {
	wide := func(m mistake) mistake {
		m.most, m.lines, m.why = 45, 15, eachCell
		return m
	}
	return []mistake{
		wide(mistake{name: "a rule whose only condition is blank", do: put("Compatibility", "Levels while driving", 2, ""),
			wants: []want{{"part-forbidden", "Compatibility!B2", "is forbidden on these vehicles"}}}),
		wide(mistake{name: "a rule on valves whose only condition is blank", do: put("Compatibility", "Levelling", 3, ""),
			wants: []want{{"part-forbidden", "Compatibility!B3", "is forbidden on these vehicles"}}}),
		wide(mistake{name: "a rule with the wrong value", do: put("Compatibility", "Levelling", 3, "Mechanical"),
			wants: []want{{"part-forbidden", "Compatibility!B3", "is forbidden on these vehicles"}}}),
		{name: "a rule without the family that it is about", do: put("Compatibility", "Family", 2, ""),
			wants: []want{{"value-invalid", "Compatibility", "name the part or the family"}}},
		{name: "a rule of the starter without its condition", from: starter, do: put("Compatibility", "Levelling", 2, ""),
			wants: []want{{"part-forbidden", "Compatibility!B2", "is forbidden on these vehicles"}},
			most:  4, lines: 45, why: "four cells are few enough to be told one by one"},
	}
}
