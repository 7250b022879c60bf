package mistakes

import (
	"fmt"

	"ferrule/out/markup"
)

// inMatters are further mistakes in Complaints and Inspections: names at the wrong place, cells that say nothing,
// one complaint in two spellings.
func inMatters() []mistake {
	cell := func(sheet, head string, row int, value, code, at, says string) mistake {
		return mistake{name: fmt.Sprintf("%s of %s in row %d as %q", head, sheet, row, value),
			do: func(b *books) { b.sheet(sheet).put(head, row, markup.Words(value)) }, wants: []want{{code, sheet + "!" + at, says}}, most: 1}
	}
	const unknown, invalid = "reference-unknown", "value-invalid"
	return []mistake{
		cell("Complaints", "Position", 5, "Flow restrictor", unknown, "G5", "which is a family of parts; write it under Family"),
		cell("Complaints", "Position", 5, "Front damper, Drive damper", unknown, "G5", "names 2, and a row is about one position; write a row for each"),
		cell("Complaints", "Position", 5, "Front damper or Drive damper", unknown, "G5", "names 2, and a row is about one position"),
		cell("Complaints", "Position", 5, "not Front damper", unknown, "G5", "leaves a position out"),
		cell("Complaints", "Position", 5, "all", unknown, "G5", "write any"),
		cell("Complaints", "Family", 4, "Flow restrictor, Damper", unknown, "H4", "names 2, and a row is about one family"),
		cell("Complaints", "Family", 4, "Front damper", unknown, "H4", "which is a position; write it under Position"),
		cell("Inspections", "Position", 3, "Damper", unknown, "F3", "which is a family of parts; name the position"),
		cell("Inspections", "Position", 3, "Steering damper, Front damper", unknown, "F3", "a row is about one position"),
		cell("Complaints", "How it helps", 6, "TBD", invalid, "J6", "says nothing to who reads the guide; write it out"),
		cell("Complaints", "Check first", 6, "n/a", invalid, "K6", "or leave the cell blank"),
		cell("Complaints", "Check first", 6, "chock", invalid, "K6", "the key of a caution, and this column prints what stands in it"),
		cell("Complaints", "Complaint", 11, `"`, invalid, "A11", "says nothing"),
		cell("Inspections", "Why", 2, "chock", invalid, "H2", "the key of a caution"),
		cell("Inspections", "What to look at", 2, "see above", invalid, "A2", "says nothing"),
		{name: "a complaint's place that shows an error", do: func(b *books) {
			b.sheet("Complaints").put("Position", 7, markup.Cell{Kind: markup.Error, Text: "#N/A"})
		}, wants: []want{{"cell-error", "Complaints!G7", "#N/A"}}, most: 1},
		{name: "complaints written once for the rows below", do: func(b *books) {
			for row := 3; row <= 5; row++ {
				b.sheet("Complaints").put("Complaint", row, "")
			}
		}, wants: []want{{invalid, "Complaints!A3", "Complaint is blank"}}, most: 3, why: "each row lacks it"},
		{name: "a complaint in two spellings, of several rows each", do: func(b *books) {
			s := b.sheet("Complaints")
			for row := 14; row <= 15; row++ {
				s.put("Complaint", row, "bounces on after a bumb")
			}
			s.insert(16, "bounces on after a bump", "any", "", "", "", "", "Drive damper", "", "5", "Ends the stroke of the axle.")
		}, wants: []want{{"complaint-alike", "Complaints!A14", "of 2 rows, and other rows say .bounces on after a bump"}}, most: 1},
		{name: "two complaints of one row that are nearly alike", do: func(b *books) { b.sheet("Complaints").put("Complaint", 7, "wanders or needs steering all the time") },
			wants: []want{{"complaint-alike", "Complaints!A7", "where the other is misspelt, correct that"}}, most: 1},
		{name: "a place of a complaint twice, with two texts", do: func(b *books) {
			b.sheet("Complaints").insert(7, "dives when braking", "H7", "", "", "", "", "Front damper", "", "1", "Makes the brake better.")
		}, wants: []want{{"complaint-order", "Complaints!A7", "two texts under How it helps, of which only the first is printed"}}, most: 1, lines: 18, why: "the finding has an example"},
		{name: "a heading of the places that is misspelt", do: func(b *books) { b.sheet("Complaints").head("Position", "Postion") },
			wants: []want{{"header-unknown", "Complaints!G1", "write Position"}}, most: 12, lines: 14, why: "each row lacks its place"},
	}
}
