package sorted

import "ferrule/compiler/finding"

// Kinds describes the code.
func Kinds() []finding.Kind {
	return []finding.Kind{{Code: finding.ColumnSorted, Severity: "error where six cells or more of three values or more are in order, or have moved since the earlier release, else warning",
		Summary: "a column was probably sorted without the others",
		Doc:     "Sorting one column alone moves what it says to other rows: its filled cells stand at the top, in order, and blanks below. That alone is never told, since careful sheets have such columns. A column of a position is told where rows are left in which nothing is fitted and vehicles without an answer at the position, or where several parts of a long column stand where they cannot be; a column of conditions where rows in which it is blank disagree, vehicles are without an answer or rows in which it is filled cannot be right, and no single row is concerned in all of it; a trait in Vehicles where rows about two platforms or more ask for values that none of the platform's vehicles has. Parts where they cannot be, rows that disagree and rows that match no vehicle because of it are counted and not listed where it is an error; vehicles without an answer are told. With --since it is told in every sheet and column where the earlier release tells it: two cells or more say what other rows said there, nothing else in their rows has changed, and the column is in order and was not. A part of the column is looked at where four cells of three values or more have moved, and a column that has stayed while the rows beside it were put in another order is told where it is three. Rows that were added, taken out or moved as a whole make no difference. A column for people (Note, Summary) is a warning. Copy the column again from where it was right. Where it is right, mend what is told with it, or accept it.",
		Before:  "Fitment!D2  HD-20\nFitment!D3  HD-21   (the row of the front air springs)\nFitment!D4  (blank)   (the row that was about HD-21)",
		After:   "Fitment!D2  HD-20\nFitment!D3  (blank)\nFitment!D4  HD-21"}}
}
