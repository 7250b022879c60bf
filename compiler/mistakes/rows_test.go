package mistakes

import (
	"fmt"
	"slices"

	"ferrule/sheets/cell"
)

// heads gives the texts of a sheet's header.
func (s *sheet) heads() []string {
	var out []string
	for _, c := range s.Rows[max(s.Header, 1)-1] {
		out = append(out, c.Text)
	}
	return out
}

// inRows are rows that stand in a table and are none of its rows.
func inRows() []mistake {
	return slices.Concat(repeatedHeaders(), belowTables(), totals(), headingRows())
}

func repeatedHeaders() []mistake {
	var out []mistake
	for _, name := range []string{"Platforms", "Traits", "Vehicles", "Positions", "Parts", "Kits", "References", "Sizes", "Fitment",
		"Fitment restrictors", "Compatibility", "Facts", "Limits", "Calculated", "Cautions", "Complaints", "Inspections", "Settings"} {
		out = append(out, mistake{name: "the header again in " + name, from: starter, do: func(b *books) {
			s := b.sheet(name)
			s.insert(3, s.heads()...)
		}, wants: []want{{"row-aside", name + "!A3", "repeats the header"}}})
	}
	return append(out,
		mistake{name: "the header again in capitals", do: func(b *books) {
			b.sheet("Fitment H7").insert(9, "PLATFORM", "YEARS", "FRONT SUSPENSION", "BEAM ARM", "FRONT AXLE RATING")
		}, wants: []want{{"row-aside", "Fitment H7!A9", "repeats the header"}}},
		mistake{name: "the header on every page", do: func(b *books) {
			s := b.sheet("Fitment H7")
			for _, row := range []int{20, 14, 8} {
				s.insert(row, s.heads()...)
			}
		}, wants: []want{{"row-aside", "Fitment H7!A15", "3 rows repeat the header"}}},
		mistake{name: "another table below", from: starter, do: func(b *books) {
			s := b.sheet("Parts")
			n := len(s.Rows)
			s.insert(n+1, "Kit", "Part", "Quantity")
			s.insert(n+2, "K-401", "D-101", "1")
		}, wants: []want{{"row-aside", "Parts!A13", "header of another table"}}},
	)
}

func belowTables() []mistake {
	var out []mistake
	for _, name := range []string{"Platforms", "Traits", "Vehicles", "Positions", "Parts", "Kits", "References", "Sizes", "Fitment",
		"Fitment restrictors", "Compatibility", "Facts", "Limits", "Calculated", "Cautions", "Complaints", "Inspections", "Settings"} {
		out = append(out, mistake{name: "a note below " + name, from: starter, do: func(b *books) {
			s := b.sheet(name)
			s.insert(len(s.Rows)+1, "* All figures are those of the drawings of last spring, please check before use")
		}, wants: []want{{"row-aside", name, "a note below the table"}}})
	}
	return append(out,
		mistake{name: "a footnote with its sign in a cell of its own", do: func(b *books) {
			s := b.sheet("Fitment H7")
			s.insert(len(s.Rows)+1, "*", "not on vehicles with the heavy brakes")
		}, wants: []want{{"row-aside", "Fitment H7", "a note below the table"}}},
		mistake{name: "a note without a sign below the fitment rows", do: func(b *books) {
			s := b.sheet("Fitment H7")
			s.insert(len(s.Rows)+1, "Dampers are always changed in pairs")
		}, wants: []want{{"row-aside", "Fitment H7", "Dampers are always"}}},
		mistake{name: "two notes below the parts", do: func(b *books) {
			s := b.sheet("Parts")
			s.insert(len(s.Rows)+1, "Note: lengths are between the eyes.")
			s.insert(len(s.Rows)+1, "(1) while stocks last")
		}, wants: []want{{"row-aside", "Parts", "2 rows are notes"}}},
	)
}

func totals() []mistake {
	total := func(name, sheet, head, word string) mistake {
		return mistake{name: name, do: func(b *books) {
			s := b.sheet(sheet)
			row := len(s.Rows) + 1
			s.poke(row, 0, word)
			s.put(head, row, "12345")
		}, wants: []want{{"row-aside", sheet, "is a total"}}}
	}
	return []mistake{
		total("a total below the vehicles", "Vehicles", "On the road", "Total"),
		total("a grand total with a colon", "Vehicles", "On the road", "Grand total:"),
		total("a total below the kits", "Kits", "Quantity", "TOTAL"),
		total("a total below the parts", "Parts", "Extended length [mm]", "Total"),
		total("a total below the positions", "Positions", "Quantity", "Sum"),
		{name: "a subtotal between the vehicles", do: func(b *books) {
			s := b.sheet("Vehicles")
			s.insert(5, "Subtotal")
			s.put("On the road", 5, "900")
		}, wants: []want{{"row-aside", "Vehicles!A5", "is a total"}}},
	}
}

func headingRows() []mistake {
	heading := func(from origin, sheet string, row int, text string) mistake {
		return mistake{name: fmt.Sprintf("a heading %q between the rows of %s", text, sheet), from: from, do: func(b *books) {
			b.sheet(sheet).insert(row, text)
		}, wants: []want{{"row-aside", fmt.Sprintf("%s!A%d", sheet, row), "only \"" + text}}}
	}
	merged := func(sheet string, row, columns int, text string) mistake {
		m := heading(demo, sheet, row, text)
		m.name += ", merged"
		do := m.do
		m.do = func(b *books) {
			do(b)
			s := b.sheet(sheet)
			r := cell.Range{From: cell.Pos{Row: int32(row), Col: 1}, To: cell.Pos{Row: int32(row), Col: int32(columns)}}
			s.Merges = append(s.Merges, r)
		}
		return m
	}
	return []mistake{
		heading(demo, "Parts", 2, "Dampers"),
		heading(demo, "Parts", 15, "Drive axle"),
		heading(starter, "Parts", 7, "Steering dampers"),
		heading(demo, "Fitment H7", 9, "Rear axle"),
		heading(demo, "Fitment H7", 2, "FITMENT 2027 – first draft"),
		heading(demo, "Vehicles", 3, "Libraries"),
		heading(demo, "Positions", 2, "Front axle"),
		heading(starter, "Positions", 6, "Restrictors"),
		heading(starter, "Traits", 5, "Axles"),
		heading(starter, "Kits", 2, "Kits for steering"),
		heading(starter, "References", 2, "Numbers of makers"),
		heading(starter, "Compatibility", 3, "Never together"),
		heading(starter, "Cautions", 2, "For the workshop"),
		heading(demo, "Platforms", 4, "Low floor"),
		merged("Parts", 4, 6, "Front dampers"),
		merged("Fitment H7", 6, 9, "H7"),
		merged("Vehicles", 2, 5, "Two axles"),
		{name: "headings over each family of parts", do: func(b *books) {
			s := b.sheet("Parts")
			for _, row := range []int{40, 30, 20, 10} {
				s.insert(row, "Group "+string(rune('A'+row/10)))
			}
		}, wants: []want{{"row-aside", "Parts!A10", "4 rows hold one text"}}},
		{name: "three parts under one merged cell", do: func(b *books) {
			s := b.sheet("Parts")
			s.Merges = append(s.Merges, cell.Range{From: cell.Pos{Row: 2, Col: 1}, To: cell.Pos{Row: 4, Col: 1}})
			for row := 3; row <= 4; row++ {
				s.put("Part", row, "")
			}
		}, wants: []want{{"declared-twice", "Parts!A2", "one merged cell says HPR-1101.*"}}},
		{name: "a part that says its number and its kind alone", harmless: true, do: func(b *books) {
			s := b.sheet("Parts")
			s.insert(len(s.Rows)+1, "HPR-9999", "", "Damper")
		}},
	}
}
