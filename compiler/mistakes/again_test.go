package mistakes

// inHeadsOfPositions are headings of a position that are none, or stand twice: what only
// follows from them is counted and not listed.
func inHeadsOfPositions() []mistake {
	head := func(from origin, sheet, old, as, code, says string) mistake {
		return mistake{name: old + " of " + sheet + " called " + as, from: from, do: func(b *books) { b.sheet(sheet).head(old, as) },
			wants: []want{{code, sheet, says}}, most: 1}
	}
	twice := func(from origin, sheet, old, as, says string) mistake {
		return head(from, sheet, old, as, "header-duplicate", says)
	}
	const neither, aside = "which of the two is meant .*\n.*nothing under either is read", "which of the two is meant .*\n.*under either are set aside"
	return []mistake{
		head(demo, "Fitment H7", "Front damper", "Frt damper", "header-unknown", "did you mean Front damper"),
		head(demo, "Fitment K26", "Bell crank", "Crank", "header-unknown", "write Bell crank"),
		head(demo, "Fitment K26", "Bell crank", "Turning thing", "header-unknown", "say what is fitted"),
		head(demo, "Fitment H9", "Front ride-height valve", "Frt RHV", "header-unknown", "write Front ride-height valve"),
		head(starter, "Fitment", "Front damper", "Frt damper", "header-unknown", "did you mean Front damper"),
		head(starter, "Fitment", "Front damper", "FD", "header-unknown", "belong at Front damper alone"),
		head(starter, "Fitment", "Front damper", "Rear damper", "header-unknown", "^[^?]*numbers of parts\n[^?]*$"),
		head(demo, "Fitment K26", "Kneeling", "Kneels", "header-unknown", "write Kneeling"),
		twice(demo, "Fitment H7", "Drive damper", "Front damper", neither),
		twice(demo, "Fitment H7", "Front damper", "Drive damper", neither),
		twice(demo, "Fitment H7", "Front air spring", "Front damper", neither),
		twice(starter, "Fitment", "Front damper note", "Front damper", neither),
		twice(demo, "Fitment H7", "Levelling", "Platform", "under the second are set aside"),
		twice(demo, "Fitment H9", "Steering side", "Front suspension", aside),
		twice(demo, "Facts", "Beam arm", "Front suspension", aside),
		twice(demo, "Vehicles", "Levelling", "Front suspension", aside),
		twice(demo, "Compatibility", "Levelling", "Levels while driving", aside),
		twice(demo, "Fitment restrictors", "Note", "Precedence", "J is not read"),
	}
}
