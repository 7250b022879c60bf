package mistakes

import "strings"

// sortedAlone are columns that were sorted without the others of their sheet.
func sortedAlone() []mistake {
	alone := func(name, sheet, head, code, at, says string, most, lines int) mistake {
		return mistake{name: name, do: func(b *books) { b.sheet(sheet).sortColumn(head) }, wants: []want{{code, at, says}}, most: most, lines: lines,
			why: "what every platform's vehicles get is told as well"}
	}
	const sorted = "column-sorted"
	return []mistake{
		alone("drive dampers sorted alone", "Fitment H7", "Drive damper", sorted, "Fitment H7!N2", "rows of the sheet fit nothing anywhere", 2, 40),
		alone("tag dampers sorted alone", "Fitment H7", "Tag damper", sorted, "Fitment H7!Q2", "no answer at Tag damper", 2, 40),
		alone("valves sorted alone", "Fitment H7", "Rear ride-height valve", sorted, "Fitment H7!V2", "no answer at Rear ride-height valve", 2, 40),
		alone("a rear suspension of fitment rows sorted alone", "Fitment H7", "Rear suspension", sorted, "Fitment H7!F2", "^Rear suspension is in order at the top", 8, 100),
		alone("a tag axle of fitment rows sorted alone", "Fitment H7", "Tag axle", sorted, "Fitment H7!H2", "^Tag axle is in order", 5, 70),
		alone("tag dampers of three-axle chassis sorted alone", "Fitment H9", "Tag damper", sorted, "Fitment H9!N2", "no answer at Tag damper", 2, 40),
		alone("bell cranks sorted alone", "Fitment H9", "Bell crank", sorted, "Fitment H9!Q2", "no answer at Bell crank", 4, 70),
		alone("levelling of fitment rows sorted alone", "Fitment H9", "Levelling", sorted, "Fitment H9!E2", "no single row explains", 8, 90),
		alone("front dampers sorted alone", "Fitment H9", "Front damper", "fitment-conflict", "Fitment H9", "HPR-110", 5, 80),
		alone("rear suspension of leaf-sprung chassis sorted alone", "Fitment L4", "Rear suspension", sorted, "Fitment L4!E2", "^Rear suspension is in order", 5, 60),
		alone("years of leaf-sprung chassis sorted alone", "Fitment L4", "Years", sorted, "Fitment L4!B2", "^Years, Front suspension and Front axle rating are each in order", 7, 80),
		alone("steering dampers of leaf-sprung chassis sorted alone", "Fitment L4", "Steering damper", "fitment-conflict", "Fitment L4", "Steering damper", 4, 70),
		alone("air springs of low-floor chassis sorted alone", "Fitment K26", "Front air spring", sorted, "Fitment K26", "no answer at Front air spring", 2, 40),
		alone("axle rating of low-floor chassis sorted alone", "Fitment K26", "Front axle rating", sorted, "Fitment K26", "^Front axle rating is in order", 2, 40),
		alone("the column of a sheet with one position a row sorted alone", "Fitment restrictors", "Fits", sorted, "Fitment restrictors!H2", "of its parts stand where they cannot be", 9, 60),
		alone("the line of a sheet with one position a row sorted alone", "Fitment restrictors", "Rear air line", sorted, "Fitment restrictors", "^Rear air line is in order", 9, 140),
		alone("front suspension of vehicles sorted alone", "Vehicles", "Front suspension", sorted, "Vehicles", "rows about H7, .* ask for values", 19, 260),
		alone("axle rating of vehicles sorted alone", "Vehicles", "Front axle rating", sorted, "Vehicles", "none of the platform's vehicles has", 8, 130),
		alone("levelling of vehicles sorted alone", "Vehicles", "Levelling", sorted, "Vehicles", "rows about H7 and H9", 5, 55),
		{name: "front suspension of vehicles of the starter sorted alone", from: starter, do: func(b *books) { b.sheet("Vehicles").sortColumn("Front suspension") },
			wants: []want{{"row-unreachable", "Fitment", "Front suspension|no vehicle"}}, most: 11, lines: 110, why: "the accepted gap has moved as well, and so have the vehicles that Breaks are about"},
		{name: "lines of the starter sorted alone", from: starter, do: func(b *books) { b.sheet("Fitment restrictors").sortColumn("Front air line") },
			wants: []want{{"line-size-mismatch", "Fitment restrictors", "R-"}}, most: 4, lines: 60, why: "both lines are concerned"},
	}
}

// sortedSince are columns whose rows still make sense once they are sorted alone: only the
// earlier release tells.
func sortedSince() []mistake {
	since := func(from origin, name, sheet, head, at string, most, lines int) mistake {
		named, _, _ := strings.Cut(head, " [")
		return mistake{name: name + ", held against the earlier release", from: from, since: true, do: func(b *books) { b.sheet(sheet).sortColumn(head) },
			wants: []want{{"column-sorted", sheet + "!" + at, "^" + named + " is in order .* nothing else in their rows has changed"}}, most: most, lines: lines,
			why: "what it did to vehicles is told as well"}
	}
	return []mistake{
		since(demo, "valves of three-axle chassis sorted alone", "Fitment H9", "Rear ride-height valve", "S2", 9, 90),
		since(demo, "years of low-floor chassis sorted alone", "Fitment K26", "Years", "B2", 2, 20),
		since(demo, "front suspension of low-floor chassis sorted alone", "Fitment K26", "Front suspension", "C4", 12, 160),
		since(starter, "levelling of vehicles sorted alone", "Vehicles", "Levelling", "E2", 9, 90),
		since(demo, "front anti-roll bars sorted alone", "Fitment H7", "Front anti-roll bar", "M3", 9, 90),
		since(demo, "beam arms sorted alone", "Fitment H7", "Beam arm", "D2", 9, 160),
		since(demo, "front suspension sorted alone", "Fitment H7", "Front suspension", "C7", 20, 300),
		since(demo, "front axle ratings sorted alone", "Fitment H7", "Front axle rating", "E3", 9, 120),
		since(demo, "front dampers of leaf-sprung chassis sorted alone", "Fitment L4", "Front damper", "G5", 9, 120),
		since(demo, "drive dampers of leaf-sprung chassis sorted alone", "Fitment L4", "Drive damper", "I2", 9, 120),
		since(demo, "where positions are sorted alone", "Positions", "Front suspension", "H2", 40, 400),
		since(demo, "places of restrictors sorted alone", "Fitment restrictors", "Position", "B2", 60, 700),
		since(demo, "beam arms of vehicles sorted alone", "Vehicles", "Beam arm", "D2", 9, 120),
		since(demo, "lengths of parts sorted alone", "Parts", "Extended length [mm]", "G2", 30, 300),
	}
}

// draggedSince are cells that were dragged onto valid numbers.
func draggedSince() []mistake {
	drag := func(from origin, name, sheet, head string, row int, at, says string, values ...string) mistake {
		return mistake{name: name + ", held against the earlier release", from: from, since: true, do: fill(sheet, head, row, values...),
			wants: []want{{"cell-dragged", sheet + "!" + at, says}}, most: 14, lines: 230, why: rowsOf}
	}
	return []mistake{
		drag(demo, "a damper dragged over three others", "Fitment H7", "Front damper", 2, "J3", `says .HPR-1101. now, as the cell above them does, where the earlier release had .HPR-1102.`, "HPR-1101", "HPR-1101", "HPR-1101", "HPR-1101"),
		drag(demo, "a damper that climbs beside other conditions", "Fitment K26", "Front damper", 2, "G4", `climbs by one from .HPR-1104. to .HPR-1107.`, "HPR-1104", "HPR-1105", "HPR-1106", "HPR-1107"),
		drag(demo, "a restrictor dragged over others", "Fitment restrictors", "Fits", 2, "H3", `says .HPR-3101. now`, "HPR-3101", "HPR-3101", "HPR-3101", "HPR-3101"),
		drag(demo, "an air line dragged over others", "Fitment restrictors", "Front air line", 2, "C3", `had .3/8 in. and .1/2 in.`, "1/4 in", "1/4 in", "1/4 in"),
		drag(starter, "what is on the road dragged over others", "Vehicles", "On the road", 2, "I3", `says .400. now, as the cell above`, "400", "400", "400"),
	}
}
