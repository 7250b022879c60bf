package mistakes

// inSuccessions are fitment cells that say which part has taken the place of which, of numbers
// that no Parts sheet has, and years as other lists write them.
func inSuccessions() []mistake {
	fits := func(text, says string) mistake {
		return mistake{name: "a fitment cell that says " + text, do: put("Fitment H7", "Front damper", 3, text),
			wants: []want{{"fitment-malformed", "Fitment H7!J3", says}}, most: 1}
	}
	years := func(text, says string) mistake {
		return mistake{name: "Years that say " + text, do: put("Fitment H7", "Years", 3, text),
			wants: []want{{"condition-malformed", "Fitment H7!B3", "(?m)" + says}}, most: 1}
	}
	return []mistake{
		fits("HPR-110 -> HPR-111", "neither is in Parts; write HPR-111 here once it is"),
		fits("HPR-1101 → HPR-111", "HPR-111 is not in Parts; write HPR-111 here once it is, and there HPR-111 under Replaced by of HPR-1101"),
		fits("HPR-110 => HPR-1102", "HPR-110, which is not in Parts; write HPR-1102, and in References HPR-110"),
		fits("HPR-110 replaced by HPR-1102", "write HPR-1102, and in References HPR-110 as a former number"),
		fits("HPR-1102 (was HPR-110)", "write HPR-1102, and in References HPR-110 as a former number"),
		fits("HPR-1102 ex HPR-110", "write HPR-1102, and in References HPR-110 as a former number"),
		fits("HPR-1101 to HPR-1103", "from the first to the last; write each one that fits"),
		years("2004-5", "write 2004-2005, or 2004 where a month is meant"),
		years("2004/5", "write 2004-2005, or 2004 where a month is meant"),
		years("MY04", "years of two digits, and a year has four; write 2004$"),
		years("MY2004-2010", "write 2004-2010$"),
		years("MY 04-10", "write 2004-2010$"),
		years("20O4", "a letter in place of a digit; write 2004$"),
		years("'04", "write 2004$"),
		years("2004..2010", "write 2004-2010$"),
		years("2004 thru 2010", "write 2004-2010$"),
		years("2004–10", "write 2004-2010, or 2004 where a month is meant"),
		years("2004/05", "write 2004-2005, or 2004 where a month is meant"),
		years("2004.5", "a model year is whole; write 2004;"),
	}
}
