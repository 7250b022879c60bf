package layout

import (
	"fmt"
	"slices"
	"strings"

	"ferrule/schema/word"
	"ferrule/sheets"
	"ferrule/sheets/cell"
)

// split says at which sign values are parted, and how they go together: or, + or each.
type split struct {
	row *Row
	place
	sign, with string
}

// splitRow understands a row split: what is parted, at which sign, and how its values go together.
func (a *author) splitRow(p *piece, r *Row) {
	s := &split{row: r, with: word.Fold(r.As)}
	var ok bool
	if s.place, s.sign, ok = subjectOf(r.Where); !ok {
		a.fail(r.WhereAt, fmt.Sprintf("%s under Where of a row split does not say what is split, and at which sign", said(r.Where)), "write a head, heads or cells, and behind it the sign: cells /")
		return
	}
	if s.with == "" || !slices.Contains([]string{"or", "+", "each"}, s.with) {
		a.fail(r.AsAt, fmt.Sprintf("%s under As of a row split says nothing of how the values go together", said(r.As)), "write or (one of them, the first by preference), + (all together) or each (a row for each)")
		return
	}
	p.splits = append(p.splits, s)
}

// pieces gives the values that a cell holds, in other words where some are declared.
func (g *reading) pieces(c *column, v *held) []*held {
	v = g.reworded(c, v)
	if len(c.splits) == 0 || v.Kind != sheets.Text && v.Kind != sheets.Number {
		return []*held{v}
	}
	texts, joined := []string{v.Text}, false
	for _, s := range c.splits {
		if s.with != "each" {
			continue
		}
		var next []string
		for _, t := range texts {
			next = append(next, cutAt(t, s.sign)...)
		}
		joined = joined || len(next) > len(texts)
		texts = next
		g.met(s.row, len(next) > 1)
	}
	out := make([]*held, len(texts))
	for i, t := range texts {
		to := g.rejoined(c, t)
		if !joined && to == v.Text {
			out[i] = v
			continue
		}
		out[i] = g.reworded(c, &held{text(to), v.at})
	}
	return out
}

// rejoined writes a list of values with or, or with +, between them.
func (g *reading) rejoined(c *column, t string) string {
	return g.joinedBy(c, t, "or", func(t string) string {
		return g.joinedBy(c, t, "+", func(t string) string { return t })
	})
}

// joinedBy parts a text at the signs of one way, does what else there is with each part, and joins them again.
func (g *reading) joinedBy(c *column, t, with string, each func(string) string) string {
	texts, cut := g.parted(t, c.splits, with)
	for i, u := range texts {
		w := each(u)
		if cut {
			w = g.reworded(c, &held{text(w), cell.Pos{}}).Text
		}
		texts[i] = w
	}
	return strings.Join(texts, " "+with+" ")
}

// cellPieces splits a cell of the grid into what is a record each.
func (g *reading) cellPieces(t string) (pieces []string, cut bool) {
	if g.signs != nil && g.sign(strings.TrimSpace(t)) != nil {
		return []string{t}, false // a mark is not split, whatever it is made of
	}
	return g.parted(t, g.ofCells, "each")
}

// parts splits a piece of a cell at the signs that mean or, or +.
func (g *reading) parts(t, with string) []string {
	if g.signs != nil && g.sign(strings.TrimSpace(t)) != nil {
		return []string{t}
	}
	out, _ := g.parted(t, g.ofCells, with)
	return out
}

// parted splits a text at the signs of those rows whose values go together in one way; it tells whether
// any sign parted it.
func (g *reading) parted(t string, splits []*split, with string) (texts []string, cut bool) {
	texts = []string{t}
	for _, s := range splits {
		if s.with != with {
			continue
		}
		var next []string
		for _, u := range texts {
			next = append(next, cutAt(u, s.sign)...)
		}
		more := len(next) > len(texts)
		g.met(s.row, more)
		texts, cut = next, cut || more
	}
	return texts, cut
}

// cutAt splits a text at a sign; what is blank between two is left out. A sign of letters stands
// between spaces.
func cutAt(t, sign string) []string {
	var out []string
	if isAlnum(rune(sign[0])) && sign[0] < 0x80 {
		t, sign = " "+strings.Join(strings.Fields(t), " ")+" ", " "+sign+" "
		for {
			i := strings.Index(strings.ToLower(t), strings.ToLower(sign))
			if i < 0 {
				break
			}
			out = appendFilled(out, t[:i])
			t = " " + t[i+len(sign):]
		}
		return appendFilled(out, t)
	}
	for _, p := range strings.Split(t, sign) {
		out = appendFilled(out, p)
	}
	if len(out) == 0 {
		return []string{t} // signs alone are told as what they are
	}
	return out
}

func appendFilled(to []string, t string) []string {
	if t = strings.TrimSpace(t); t != "" {
		to = append(to, t)
	}
	return to
}
