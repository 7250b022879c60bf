// Package mistakes holds the compiler to what people get wrong in spreadsheets: each
// mistake is made, by itself, in the demo, the starter or a small catalogue in three languages, and must be
// told at its cell.
// It has tests only.
//
// To add a mistake, add a row to one of the tables that `corpus` lists (a file for each
// field): a name, the catalogue, what is done to its sheets, and what must come of it.
//
//	{name: "a unit that is none", do: func(b *books) { b.sheet("Parts").put("Extended length [mm]", 5, "612 mmm") },
//		wants: []want{{"unit-unknown", "Parts!G5", `"mmm"`}}},
//
// Rows are those of the sheet, counted from 1, the header included. A mistake that is
// understood all the same, or that changes nothing, has `harmless`: then nothing but notes may
// come of it and the guides' JSON must be the same.
//
// A mistake after which every row still makes sense has `since`: it is held against the
// catalogue without it, as an earlier release. A column that is sorted alone needs no row of
// its own: TestEveryColumnSortedAlone goes through all of them.
//
// What comes of a mistake is the findings that the catalogue has with it and not without it,
// compared by what they say. One fault is told once, so that by default two findings may
// come, and twelve lines of the report; a row that needs more says so, and why.
package mistakes
