package propose

import (
	"fmt"
	"strings"

	"ferrule/schema"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// corner is where the table begins.
func (r *reading) corner() cell.Pos { return cell.Pos{Row: r.t.Head, Col: r.t.Columns[0].Col} }

// unread says that nothing is proposed for the table.
func (r *reading) unread() {
	var names []string
	for _, c := range r.all {
		names = append(names, word.Quote(c.whole()))
	}
	r.remark([]cell.Pos{r.corner()}, strings.Join(names[:min(len(names), 8)], ", "),
		"it does not say both which part and which vehicle each row is about, in words that are known",
		`nothing is proposed for it. Write "table" with the kind of sheet it is, and "is" for its columns; or put _ before the sheet's name where it is no part of the catalogue`)
}

func (r *reading) remark(cells []cell.Pos, says, means, write string) {
	r.b.remark(r.p, cells, says, means, write)
}

// rule adds a row of Layouts.
func (r *reading) rule(w, where, as string, sure Sure, why string) {
	r.rules = append(r.rules, Rule{r.p.Name, w, where, as, sure, why})
}

// table begins a reading of the table as a kind of sheet.
func (r *reading) table(kind string, sure Sure, why string) {
	r.rule("table", r.extent(), schema.Title(kind), sure, why)
}

// extent says where the table stands: its rows are named where the sheet holds more below it.
func (r *reading) extent() string {
	out := fmt.Sprintf("header %d", r.t.Head)
	if r.t.HeadEnd > r.t.Head {
		out += fmt.Sprintf("-%d", r.t.HeadEnd)
	}
	if len(r.p.tables) > 1 || len(r.t.Foot) > 0 {
		out += fmt.Sprintf(", rows %d-%d", r.t.HeadEnd+1, r.t.Last)
	}
	return out
}

// where names a column as Layouts does: by its heads, or by its letters where no other way is plain.
func (r *reading) where(c *column) string {
	text := r.heads(c)
	plain := text != "" && !strings.ContainsAny(text, "\"…“”") && !strings.Contains(text, "...") && len(text) <= 80
	for _, o := range r.all {
		plain = plain && (o == c || word.Fold(r.heads(o)) != word.Fold(text) && word.Fold(o.Head()) != word.Fold(text))
	}
	for _, h := range c.Heads {
		plain = plain && !strings.Contains(h, "/")
	}
	if len(r.p.tables) > 1 {
		for _, t := range r.p.tables {
			plain = plain && (t == r.t || t.Head != r.t.Head)
		}
	}
	for _, taken := range []string{"heads", "cells", "sheet name", "section", "bold", "merged"} {
		plain = plain && word.Fold(text) != taken
	}
	for _, begin := range []string{"column ", "cell ", "row ", "rows ", "header "} {
		plain = plain && !strings.HasPrefix(word.Fold(text), begin)
	}
	if !plain {
		return "column " + cell.Column(c.Col)
	}
	return text
}

// heads gives the headings over a column with a slash between their rows.
func (r *reading) heads(c *column) string {
	var out []string
	for _, h := range c.Heads {
		if h = strings.Join(strings.Fields(h), " "); h != "" && (len(out) == 0 || word.Fold(out[len(out)-1]) != word.Fold(h)) {
			out = append(out, h)
		}
	}
	return strings.Join(out, " / ")
}
