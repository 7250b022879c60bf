package mistakes

import (
	"fmt"
	"slices"

	"ferrule/out/markup"
)

// inCells are mistakes in what a single cell says.
func inCells() []mistake {
	return slices.Concat(inFits(), inConditions(), inYears(), inReasons())
}

// fits makes a mistake of what the cell for the front damper of the demo's first row says.
func fits(cell, code, says string) mistake {
	return mistake{name: "a fitment cell of " + cell,
		do:    func(b *books) { b.sheet("Fitment H7").put("Front damper", 2, cell) },
		wants: []want{{code, "Fitment H7!J2", "(?m)" + says}}}
}

func inFits() []mistake {
	const malformed, unknown = "fitment-malformed", "part-unknown"
	return []mistake{
		fits("NLA", malformed, `no longer to be had.*withdrawn under its Status.*"none: NLA"`),
		fits("see note", malformed, `elsewhere; write "ask: see note"`),
		fits("see note 3", malformed, `write "ask: see note 3"`),
		fits("call", malformed, `write "ask: call"`),
		fits("HPR-1103 -> HPR-1113", malformed, `HPR-1113 has taken the place of HPR-1103; write HPR-1113, and in Parts HPR-1113 under Replaced by of HPR-1103$`),
		fits("HPR-1103->HPR-1113", malformed, `HPR-1113 has taken the place of HPR-1103; write HPR-1113, and in Parts HPR-1113 under Replaced by of HPR-1103$`),
		fits("HPR-1103 NLA use HPR-1113", malformed, `HPR-1113 has taken the place of HPR-1103; write HPR-1113, and in Parts HPR-1113 under Replaced by of HPR-1103$`),
		fits("HPR-1103 NLA, use HPR-1113", malformed, `HPR-1113 has taken the place of HPR-1103; write HPR-1113, and in Parts HPR-1113 under Replaced by of HPR-1103$`),
		fits("HPR-1103 superseded by HPR-1113", malformed, `HPR-1113 has taken the place of HPR-1103; write HPR-1113, and in Parts HPR-1113 under Replaced by of HPR-1103$`),
		fits("HPR-1103 (replaced by HPR-1113)", malformed, `HPR-1113 has taken the place of HPR-1103; write HPR-1113, and in Parts HPR-1113 under Replaced by of HPR-1103$`),
		fits("HPR-1103 use HPR-1113", malformed, `HPR-1113 has taken the place of HPR-1103; write HPR-1113, and in Parts HPR-1113 under Replaced by of HPR-1103$`),
		fits("HPR-1113 replaces HPR-1103", malformed, `HPR-1113 has taken the place of HPR-1103; write HPR-1113, and in Parts HPR-1113 under Replaced by of HPR-1103$`),
		fits("HPR-1103 discontinued - use HPR-1113", malformed, `HPR-1113 has taken the place of HPR-1103; write HPR-1113, and in Parts HPR-1113 under Replaced by of HPR-1103$`),
		fits("dealer only", malformed, `elsewhere; write "ask: dealer only"`),
		fits("made to order", malformed, `elsewhere; write "ask: made to order"`),
		fits("on request", malformed, `elsewhere; write "ask: on request"`),
		fits("TBA", malformed, `still to come; write "planned: TBA"`),
		fits("x", malformed, `mark that something fits.*write the number`),
		fits("✓", malformed, `mark that something fits`),
		fits("yes", malformed, `mark that something fits`),
		fits("discontinued", malformed, `no longer to be had.*"none: discontinued"`),
		fits("same as HPR-1102", unknown, `; write HPR-1102$`),
		fits("no fit", malformed, `nothing fits; write none and the reason`),
		fits("qty 2", malformed, `a quantity and names no part; write 2 x and the number`),
		fits("2 pcs", malformed, `write 2 x and the number`),
		fits("(1 per side)", malformed, `write 1 x and the number`),
		fits("4", malformed, `write 4 x and the number`),
		fits("2 HPR-1101", unknown, `with x and a space: write 2 x HPR-1101$`),
		fits("2pcs HPR-1101", unknown, `write 2 x HPR-1101$`),
		fits("HPR-1101 x2", unknown, `write 2 x HPR-1101$`),
		fits("HPR-1101 (2)", unknown, `write 2 x HPR-1101$`),
		fits("HPR-1101 qty 2", unknown, `write 2 x HPR-1101$`),
		fits("HPR-1101/1102", unknown, `"HPR-1101 or HPR-1102" for a choice, or "HPR-1101 \+ HPR-1102"`),
		fits("HPR-1101/HPR-1102", unknown, `"HPR-1101 or HPR-1102" for a choice, or "HPR-1101 \+ HPR-1102"`),
		fits("HPR-1101 & HPR-1102", unknown, `"HPR-1101 \+ HPR-1102" for parts fitted together, or "HPR-1101 or HPR-1102"`),
		fits("HPR-1101 and HPR-1102", unknown, `"HPR-1101 \+ HPR-1102" for parts fitted together`),
		fits("2 HPR-1101 or 2 HPR-1102", unknown, `write 2 x HPR-1101 or 2 x HPR-1102$`),
		fits("HPR-1101 (not w/ heavy brakes)", malformed, `write HPR-1101, and put "not w/ heavy brakes" into a column of notes`),
		fits("HPR-1101*", malformed, `^"HPR-1101\*": a fitment cell takes.*write HPR-1101, and put "\*"`),
		fits("HPR-1101 or equivalent", malformed, `write HPR-1101, and put "or equivalent"`),
		fits("HPR-1101, see note", malformed, `write HPR-1101, and put "see note"`),
		fits("HPR1101", unknown, `write HPR-1101$`),
		fits("?", malformed, `nobody knows; write ask`),
		fits("TBC", malformed, `still to come; write "planned: TBC"`),
		fits("N/A", malformed, `write none and the reason`),
		fits("-", malformed, `write none and the reason`),
		fits("same", malformed, `repeat another cell.*write here what that cell says`),
		fits(`"`, malformed, `^“"” is taken to repeat another cell`),
		fits("''", malformed, `repeat another cell`),
		fits("as above", malformed, `repeat another cell`),
		fits("std", malformed, `the maker's own part.*"none: std"`),
		fits("03/2027", malformed, `a date and names no part; write "planned: 03/2027"`),
		fits("2007-2012", malformed, `years, which stand under Years`),
		fits("any", malformed, `does not say which parts`),
		fits("HPR-11O1", unknown, `did you mean HPR-1101\?`),
	}
}

// under makes a mistake of a condition in a row of the demo. The gap that its row leaves is
// counted under it.
func under(trait, column, cell, says string) mistake {
	return mistake{name: "a condition of " + cell + " under " + trait,
		do:    func(b *books) { b.sheet("Fitment H7").put(trait, 2, cell) },
		wants: []want{{"condition-malformed", "Fitment H7!" + column + "2", "(?m)" + says}}}
}

func inConditions() []mistake {
	front := func(cell, says string) mistake { return under("Front suspension", "C", cell, says) }
	rating := func(cell, says string) mistake { return under("Front axle rating", "E", cell, says) }
	return []mistake{
		front("except Air independent", `write not Air independent$`),
		front("all except Air independent", `write not Air independent$`),
		front("all but Air independent", `write not Air independent$`),
		front("w/o Air independent", `write not Air independent$`),
		front("<> Air independent", `write not Air independent$`),
		front("!= Air independent", `write not Air independent$`),
		front("no Air independent", `write not Air independent$`),
		front("non-Air independent", `write not Air independent$`),
		front("not Leaf, not Air independent", `write not Leaf, Air independent$`),
		front("not Leaf and not Air independent", `write not Leaf, Air independent$`),
		front("w/ Air beam", `write Air beam$`),
		front("Air beam only", `write Air beam$`),
		front("Air beam / Air independent", `write Air beam or Air independent$`),
		front("Air beam & Air independent", `write Air beam or Air independent$`),
		front("Air beam, not Leaf", `"Air beam" where only.*"not Leaf"`),
		front("Air beam (2010 on)", `write Air beam, and put "2010 on"`),
		front("both", `write any`),
		front("all", `write any`),
		front("*", `write any`),
		front("-", `write any, or n/a where the trait does not apply`),
		front("none", `write any, or n/a`),
		front("TBD", `not known.*or any`),
		front("Mechanical", `is a value of Levelling`),
		rating(">= 7.1 t", `write from 7.1 t$`),
		rating("> 6.3 t", `write from 7.1 t$`),
		rating("up to 7.1 t", `write to 7.1 t$`),
		rating("7.1 t+", `write from 7.1 t$`),
		rating("6.3 t - 7.1 t", `write from 6.3 t to 7.1 t$`),
	}
}

// year makes a mistake of the Years of a row of the demo.
func year(cell any, code, says string) mistake {
	return mistake{name: fmt.Sprintf("years of %v", cell),
		do:    func(b *books) { b.sheet("Fitment H7").put("Years", 6, cell) },
		wants: []want{{code, "Fitment H7!B6", "(?m)" + says}},
		lines: 14, why: "a finding that is accepted is about other vehicles"}
}

func inYears() []mistake {
	const malformed = "condition-malformed"
	return []mistake{
		year("03/2009", malformed, `a month or a day.*write 2009;`),
		year("March 2009", malformed, `write 2009;`),
		year("2009-03", malformed, `write 2009;`),
		year("10001-46999", malformed, `serial numbers.*model years`),
		year("VIN 123456", malformed, `serial numbers`),
		year(shown("2009.5", ""), malformed, `a part of a year.*write 2009;`),
		year("2007½", malformed, `write 2007;`),
		year("2003/04", malformed, `write 2003-2004, or 2003 where a month is meant`),
		year("2004/2010", malformed, `write 2004, 2010, or 2004-2010 where a range is meant$`),
		year("04/10", malformed, `write 2004-2010, or 2010 where a month is meant$`),
		year("93/04", malformed, `write 1993-2004, or 1993, 2004 where a list of two years is meant$`),
		year("2010 on", malformed, `write 2010\+$`),
		year("2010-", malformed, `write 2010\+$`),
		year("-2010", malformed, `write to 2010$`),
		year("up to 2009", malformed, `write to 2009$`),
		year("since 2010", malformed, `write 2010\+$`),
		year("from 2010 onwards", malformed, `write 2010\+$`),
		year("2010-present", malformed, `write 2010\+$`),
		year("pre 2010", malformed, `write to 2009$`),
		year("after 2009", malformed, `write 2010\+$`),
		year("'09", malformed, `write 2009$`),
		year("09-12", malformed, `write 2009-2012$`),
		year("2009 & 2010", malformed, `write 2009, 2010$`),
		year("2009/2010", malformed, `write 2009, 2010, or 2009-2010 where a range is meant$`),
		year("not 2009, not 2010", malformed, `write not 2009, 2010$`),
		year("all except 2009", malformed, `write not 2009$`),
		year("MY2009", malformed, `write 2009$`),
		year("all", malformed, `write any$`),
		year(dated("2009-03-15", "yyyy-mm-dd"), "cell-date-mangled", `the date 2009-03-15, with the number format yyyy-mm-dd.*was it 2009`),
		{name: "years with a dash for a hyphen", harmless: true, do: func(b *books) {
			b.sheet("Fitment H7").put("Years", 6, "2009–2010")
		}},
	}
}

func inReasons() []mistake {
	return []mistake{
		{name: "none without a reason", do: func(b *books) {
			b.sheet("Fitment L4").put("Front anti-roll bar", 5, "none")
		}, wants: []want{{"reason-missing", "Fitment L4!H5", `write none and the reason`}}},
		{name: "ask without a question", do: func(b *books) {
			s := b.sheet("Fitment K26")
			s.put("Bell crank", s.row("Bell crank", "ask: count the holes in the long arm of the crank, two or three, and tell our ride desk"), "ask")
		}, wants: []want{{"reason-missing", "Fitment K26", `write ask and what to measure`}}},
		{name: "a quantity that is a text", harmless: true, do: func(b *books) {
			s := b.sheet("Positions")
			for row := 2; row <= len(s.Rows); row++ {
				if q := s.get("Quantity", row); q != "" {
					s.put("Quantity", row, markup.Words(q))
				}
			}
		}},
		{name: "a precedence that is a text", harmless: true, do: func(b *books) {
			b.sheet("Fitment H7").put("Precedence", 6, markup.Words("10"))
		}},
	}
}
