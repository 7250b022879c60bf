package propose

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"ferrule/compiler/propose/shape"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// use is how a mark or a sign of footnotes is used in a grid.
type use struct {
	text  string
	n     int
	cells []cell.Pos // the first ones
	cols  map[int32]bool
}

// uses counts the marks of a grid and the signs behind them, in the order in which they are met.
func (r *reading) uses() (marks, signs []*use) {
	count := func(list *[]*use, text string, at cell.Pos) {
		i := slices.IndexFunc(*list, func(u *use) bool {
			return word.Fold(u.text) == word.Fold(text) || list == &signs && shape.Plain(u.text) == shape.Plain(text)
		})
		if i < 0 {
			i = len(*list)
			*list = append(*list, &use{text: text, cols: map[int32]bool{}})
		}
		u := (*list)[i]
		u.n++
		u.cols[at.Col] = true
		if len(u.cells) < maxCells {
			u.cells = append(u.cells, at)
		}
	}
	for row := range r.t.Each {
		for _, c := range r.across.columns {
			text := row.At(c.Col)
			if text == "" {
				continue
			}
			at := cell.Pos{Row: row.Number, Col: c.Col}
			base, sign := shape.Sign(text)
			if shape.ClassOf(base) == shape.Mark {
				count(&marks, base, at)
			}
			if sign != "" {
				count(&signs, sign, at)
			}
		}
	}
	return marks, signs
}

// sayMark writes what a mark means.
func (r *reading) sayMark(u *use, all []*use) {
	says, at := r.explained(u.text)
	as, sure, why := markMeans(u.text, says)
	if as == limits {
		r.sayLimit(u, says, at)
		return
	}
	if as == "" && says == "" && len(all) == 1 {
		as, sure, why = "this row", Likely, "it is the only mark of the grid"
	}
	if as == "" {
		r.remark(u.cells, u.text, fmt.Sprintf("%s %s, which stands for something that the sheet explains nowhere%s", cellsSay(u.n), word.Quote(u.text), quoted(says)),
			fmt.Sprintf(`a row of Layouts: mark, %s, and "this row" where it says that the part fits, "nothing" where it does not, or a condition such as "Trait = value"`, word.Quote(u.text)))
		return
	}
	if as == "this row" {
		r.marks = append(r.marks, u.text)
	}
	r.rule("mark", u.text, as, sure, why)
	if sure == Unsure {
		r.remark(append([]cell.Pos{at}, u.cells...), says, fmt.Sprintf("%s %s, which is read as %q", cellsSay(u.n), word.Quote(u.text), as),
			"another word in the row mark of Layouts where it limits the fit: a condition such as \"Trait = value\"")
	}
}

func cellsSay(n int) string { return counted(n, "cell says", "cells say") }

// askAbout begins texts that send people to ask.
var askAbout = regexp.MustCompile(`(?i)^ask(?: for| about)?[:,]?\s+`)

// limits stands for a mark that is a fit under a condition.
const limits = "\x00limits"

// markMeans says what a mark means by itself and by its explanation. Common practice, no source.
func markMeans(text, says string) (as string, sure Sure, why string) {
	folded, told := word.Fold(text), word.Fold(says)
	has := func(words ...string) bool {
		return slices.ContainsFunc(words, func(w string) bool { return strings.Contains(told, w) })
	}
	switch {
	case has("not available", "does not fit", "not fitted", "no fit", "not offered", "none"):
		return "nothing", Likely, "the sheet explains it: " + says
	case strings.HasPrefix(told, "ask") || has("on request", "contact", "call us"):
		return "ask: " + askAbout.ReplaceAllString(trimmed(says), ""), Likely, "the sheet explains it: " + says
	case has("option", "special"):
		return "this row", Unsure, "the sheet explains it: " + says
	case has("standard", "series", "fits", "fitted", "available", "yes", "suitable"):
		return "this row", Likely, "the sheet explains it: " + says
	case says != "" && restricts(says):
		return limits, Unsure, ""
	case says != "":
		return "", Unsure, ""
	case slices.Contains([]string{"-", "–", "—", "n/a", "na", "no", "n"}, folded):
		return "nothing", Likely, "it is what people write for no fit"
	case slices.Contains([]string{"x", "×", "✓", "✔", "√", "●", "•", "■", "yes", "y", "✗✗"}, folded):
		return "this row", Certain, "it is what people write for a fit"
	}
	return "", Unsure, ""
}

// explained gives what a line below or above the table says of a mark or a sign.
func (r *reading) explained(text string) (says string, at cell.Pos) {
	for _, lines := range [][]shape.Line{r.t.Foot, r.t.Titles} {
		for _, l := range lines {
			for _, f := range shape.Footnotes(l.Text) {
				if word.Fold(f[0]) == word.Fold(text) || shape.Plain(f[0]) == shape.Plain(text) {
					return f[1], l.Pos
				}
			}
			if sign, says, ok := shape.Numbered(l.Text); ok && sign == shape.Plain(text) {
				return says, l.Pos
			}
		}
	}
	return "", cell.Pos{}
}

// saySign writes what a sign behind marks means: a condition where its text may limit vehicles.
func (r *reading) saySign(u *use) {
	says, at := r.explained(u.text)
	cells := append([]cell.Pos{at}, u.cells...)
	switch {
	case says == "":
		r.remark(u.cells, u.text, fmt.Sprintf("%s the sign %s, and no text below the table begins with it", counted(u.n, "cell has", "cells have"), word.Quote(u.text)),
			fmt.Sprintf(`a row of Layouts: mark, %s, and what it means, a condition such as "Trait = value"`, word.Quote(u.text)))
	case !restricts(says):
		r.rule("mark", u.text, "note below", Likely, "the text below limits nothing")
		r.remark(cells, says, "read as a note, which guides print and which limits nothing",
			"a condition in the row mark of Layouts, such as \"Trait = value\", if it does limit the fit")
	default:
		r.sayLimit(u, says, at)
	}
}

// sayLimit writes the condition that a mark or a sign stands for.
func (r *reading) sayLimit(u *use, says string, at cell.Pos) {
	c := r.b.condition(says, r.hasYears())
	r.rule("mark", u.text, c.column+" = "+c.says, Unsure, c.why)
	r.tellCondition(c, append([]cell.Pos{at}, u.cells...), says, "mark")
	for _, column := range r.across.columns {
		if u.cols[column.Col] {
			r.b.drafts.restricted(c, r.platformOfHead(column.Col))
		}
	}
	if r.vehicle.of != nil {
		for row := range r.t.Each {
			for _, name := range r.platformsOf(row) {
				r.b.drafts.restricted(c, name)
			}
		}
	}
}

// counts remarks on numbers in a grid.
func (r *reading) counts() {
	var cells []cell.Pos
	var texts []string
	parts := r.partsInGrid()
	for row := range r.t.Each {
		for _, c := range r.across.columns {
			text := row.At(c.Col)
			base, _ := shape.Sign(text)
			class := shape.ClassOf(base)
			if text != "" && class != shape.Mark && !(parts && (class == shape.Code || class == shape.Codes)) {
				cells = append(cells, cell.Pos{Row: row.Number, Col: c.Col})
				texts = append(texts, text)
			}
		}
	}
	if len(cells) > 0 {
		slices.Sort(texts)
		texts = slices.Compact(texts)
		r.remark(cells, strings.Join(texts[:min(len(texts), 6)], ", "), "cells of the grid hold what is no mark: perhaps how many are fitted, or a condition",
			`a row of Layouts for each: mark, the text, and "this row", "nothing" or a condition; how many belongs under Quantity of Positions`)
	}
}
