package report

import (
	"fmt"
	"io"
	"strings"

	"ferrule/compiler/ask/pick"
	"ferrule/compiler/model"
)

// shownOthers is how many parts that are not offered are told of one position.
const shownOthers = 6

// Why writes the reasons behind a pick list for people.
func Why(w io.Writer, y *pick.Why, o Options) error {
	p := newPage(w, o)
	p.asked(y.Query, y.List)
	if y.Configurations.Sign() == 0 {
		p.near(y.List)
		return p.err
	}
	for i := range y.Reasons {
		p.line("")
		p.reasons(&y.Reasons[i])
	}
	if len(y.Reasons) == 0 {
		p.line("")
		p.wrap("", 0, nothingToExplain(y.Focus))
	}
	return p.err
}

func nothingToExplain(f pick.Focus) string {
	if f.Position != nil {
		return "these vehicles have no position " + f.Position.Name
	}
	return "no fitment cell offers " + f.Part.Number + " at a position that these vehicles have"
}

func (p *page) reasons(r *pick.Reasons) {
	p.title(r.Position.Position.Name)
	if !r.Exact {
		p.wrap("  ", 2, "too irregular to be worked out for all of these vehicles; tell more of the vehicle")
		return
	}
	if len(r.Cells) == 0 {
		p.wrap("  ", 2, "no fitment cell matches these vehicles")
	}
	for _, s := range r.Cells {
		p.standing(s)
	}
	for _, w := range r.Ways {
		for _, f := range w.Findings {
			p.against(f, true)
		}
	}
	for _, c := range r.Others[:min(len(r.Others), shownOthers)] {
		p.candidate(c)
	}
	if n := len(r.Others) - shownOthers; n > 0 {
		p.wrap("  ", 2, fmt.Sprintf("+%d more parts that other rows offer here; --part tells of one", n))
	}
}

// standing tells of a cell that matches.
func (p *page) standing(s pick.Standing) {
	decides, overruled := Standing(s)
	if decides != "" {
		p.wrap("  "+p.paint(bold, "decides")+"   ", 12, decides)
	}
	if overruled != "" {
		p.wrap("  overruled ", 12, overruled)
	}
}

// part says of which of the vehicles something is so, where not of all.
func part(boxes []model.Box) string {
	var words []string
	for _, b := range boxes[:min(len(boxes), shownBoxes)] {
		if s := b.String(); s != "all" {
			words = append(words, s)
		}
	}
	if len(words) == 0 {
		return ""
	}
	if n := len(boxes) - shownBoxes; n > 0 {
		words = append(words, fmt.Sprintf("+%d more boxes", n))
	}
	return ", where " + strings.Join(words, "; or ")
}

func precedence(c *model.FitCell) string {
	if c.Row.Precedence == 0 {
		return ""
	}
	return fmt.Sprintf(" (precedence %d)", c.Row.Precedence)
}

func overruling(by []*model.FitCell) string {
	words := make([]string, len(by))
	for i, c := range by {
		words[i] = fmt.Sprintf("%s (precedence %d)", c.At, c.Row.Precedence)
	}
	return strings.Join(words, ", ")
}

// candidate says why a part is not offered.
func (p *page) candidate(c pick.Candidate) {
	p.wrap("  "+p.paint(bold, "not")+" ", 6, partWords(c.Part))
	for _, s := range c.Rows {
		p.missed(s)
	}
	if len(c.Rows) == 0 {
		p.aside("row", "no cell of this position offers it")
	}
	for _, f := range c.Against {
		p.against(f, true)
	}
}

// missed says why a row that offers the part does not decide.
func (p *page) missed(s pick.Standing) { p.aside("row", Missed(s)) }
