package compare

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"ferrule/compiler/formula"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// limitLosses gives the Limits rows of OLD that NEW has not, or only as a warning, for
// parts that both releases have. What a limit is called and its message make no difference.
func (c *comparison) limitLosses() []Loss {
	var out []Loss
	parts := c.numbers()
	for _, l := range c.old.Catalogue.Limits {
		if l.Position != nil && c.positions.toNew[l.Position.Index] < 0 {
			continue
		}
		families := map[string]bool{} // of NEW, kits told apart
		for _, p := range c.old.Catalogue.Parts {
			now := parts[c.number(isOld, p)]
			key := ""
			if now != nil {
				key = fmt.Sprint(word.Fold(now.Family), now.Kit())
			}
			if now == nil || families[key] || !l.About(p) {
				continue
			}
			families[key] = true
			if loss, lost := c.limitLoss(l, now); lost {
				out = append(out, loss)
				break
			}
		}
	}
	return out
}

// limitLoss tells what became of a limit for a part of NEW; false where it stands.
func (c *comparison) limitLoss(l *model.Limit, p *model.Part) (Loss, bool) {
	out := Loss{Sheet: "Limits", Was: limitWords(l), Old: []cell.Place{l.At}}
	if l.Position != nil {
		out.Position = c.new.Catalogue.Positions[c.positions.toNew[l.Position.Index]].Name
	}
	for _, n := range c.new.Catalogue.Limits {
		wide := n.About(p) && (n.Position == nil || l.Position != nil && c.positions.toNew[l.Position.Index] == n.Position.Index)
		switch same := limitKey(l) == limitKey(n) || c.stricter(l, n); {
		case same && wide && (l.Warning || !n.Warning):
			return Loss{}, false
		case same || word.Fold(l.Name) == word.Fold(n.Name):
			out.Now, out.New = limitWords(n), []cell.Place{n.At}
		}
	}
	return out, true
}

// limitKey is equal for limits that ask for the same.
func limitKey(l *model.Limit) string {
	if b, ok := boundOf(l); ok {
		return b.more + "\x00" + formula.AtLeast.String() + "\x00" + b.less
	}
	return word.Fold(l.Left) + "\x00" + word.Fold(l.Must) + "\x00" + word.Fold(l.Right)
}

// limitWords says a Limits row.
func limitWords(l *model.Limit) string {
	words := fmt.Sprintf("%q: %s %s %s", l.Name, l.Left, l.Must, l.Right)
	if l.Position != nil {
		words += ", at " + l.Position.Name
	}
	if l.Family != "" {
		words += ", of the family " + l.Family
	}
	if l.Warning {
		words += ", as a warning"
	}
	return words
}

// cautionLosses gives the Cautions rows of OLD that NEW has under no key, or at a lower
// level. A text that was written otherwise is no loss.
func (c *comparison) cautionLosses() []Loss {
	var out []Loss
	for _, old := range c.old.Catalogue.Cautions {
		now := c.caution(old)
		was := fmt.Sprintf("the %s %q (%s)", old.Level, old.Key, old.Text)
		switch {
		case now == nil:
			out = append(out, Loss{Sheet: "Cautions", Was: was, Old: []cell.Place{old.At}})
		case slices.Index(model.Levels(), now.Level) > slices.Index(model.Levels(), old.Level):
			out = append(out, Loss{Sheet: "Cautions", Was: was, Now: "a " + now.Level, Old: []cell.Place{old.At}, New: []cell.Place{now.At}})
		}
	}
	return out
}

// caution gives the caution of NEW that is called like one of OLD, or says the same; nil
// for none.
func (c *comparison) caution(old *model.Caution) *model.Caution {
	for _, same := range []func(*model.Caution) bool{
		func(n *model.Caution) bool { return word.Fold(n.Key) == word.Fold(old.Key) },
		func(n *model.Caution) bool { return word.Fold(n.Text) == word.Fold(old.Text) },
	} {
		if i := slices.IndexFunc(c.new.Catalogue.Cautions, same); i >= 0 {
			return c.new.Catalogue.Cautions[i]
		}
	}
	return nil
}

// partCautions gives the cautions that stand at parts of OLD and not at the same parts of
// NEW: one loss for each caution. Those that are gone as a whole have been told.
func (c *comparison) partCautions() []Loss {
	var out []Loss
	parts := c.numbers()
	for _, old := range c.old.Catalogue.Cautions {
		now := c.caution(old)
		if now == nil {
			continue
		}
		loss := Loss{Sheet: "Parts"}
		for _, p := range c.old.Catalogue.Parts {
			n := parts[c.number(isOld, p)]
			if n != nil && warns(p, old) && !warns(n, now) {
				loss.Parts = append(loss.Parts, n.Number)
				loss.Old, loss.New = append(loss.Old, p.At), append(loss.New, n.At)
			}
		}
		if len(loss.Parts) > 0 {
			if loss.Was = fmt.Sprintf("the caution %q", old.Key); len(loss.Parts) == 1 {
				loss.Part = loss.Parts[0]
			}
			out = append(out, loss)
		}
	}
	return out
}

// warns tells whether a caution stands at a part.
func warns(p *model.Part, c *model.Caution) bool {
	return slices.ContainsFunc(p.Cautions, func(n model.Note) bool { return n.Caution == c })
}

// lineSizes gives the parts that had a Line size and have none, or one without the wall
// that it stated. Another size is a change, which checks judge.
func (c *comparison) lineSizes() []Loss {
	var out []Loss
	parts := c.numbers()
	for _, old := range c.old.Catalogue.Parts {
		n := parts[c.number(isOld, old)]
		if n == nil || old.Line == nil {
			continue
		}
		loss := Loss{Sheet: "Parts", Was: fmt.Sprintf("the Line size %s of %s", old.Line.Text, n.Number), Part: n.Number,
			Old: []cell.Place{old.LineAt}, New: []cell.Place{n.LineAt}}
		switch {
		case n.Line == nil:
		case old.Line.Wall != nil && n.Line.Wall == nil && n.Line.Num != nil:
			loss.Now = n.Line.Text
		default:
			continue
		}
		out = append(out, loss)
	}
	return out
}

// airLines gives the positions whose Air line is blank on vehicles for which OLD names one.
func (c *comparison) airLines(ctx context.Context) ([]Loss, error) {
	var open []places
	for _, x := range c.placesOf() {
		if x.old != nil && x.new != nil && len(x.old.Lined()) > 0 && !c.sameLines(x) {
			open = append(open, x)
		}
	}
	if len(open) == 0 {
		return nil, ctx.Err()
	}
	pairs := c.both()
	found := make([][]*Bare, len(pairs))
	err := c.each(ctx, len(pairs), func(w *worker, i int) { found[i] = w.unlined(pairs[i], open) })
	var out []Loss
	for k, x := range open {
		loss := Loss{Sheet: "Positions", Position: x.new.Name, Was: fmt.Sprintf("the Air line %s of %s", x.old.Lined()[0].AirLine.Name, x.old.Name)}
		for _, list := range found {
			if list != nil && list[k] != nil {
				loss.Where = append(loss.Where, *list[k])
			}
		}
		for _, r := range x.old.Lined() {
			loss.Old = append(loss.Old, r.LineAt)
		}
		for _, r := range x.new.Rows {
			if r.AirLine == nil {
				loss.New = append(loss.New, r.LineAt)
			}
		}
		if len(loss.Where) > 0 {
			out = append(out, loss)
		}
	}
	return out, err
}

// sameLines tells whether the rows of a position say the same of its line in both
// releases.
func (c *comparison) sameLines(x places) bool {
	key := func(s which, rows []*model.PositionRow) string {
		var words []string
		for _, r := range rows {
			words = append(words, fmt.Sprint(c.whenKey(s, &r.When), r.AirLine != nil, r.When.SetAside))
		}
		slices.Sort(words)
		return strings.Join(words, "\n")
	}
	return key(isOld, x.old.Rows) == key(isNew, x.new.Rows)
}

// unlined gives for each position the vehicles of a platform on which it has no line any
// more, nil for none.
func (w *worker) unlined(v versions, open []places) []*Bare {
	p, err := w.open(v)
	if err == nil {
		err = p.Try(p.settle)
	}
	out := make([]*Bare, len(open))
	for i, x := range open {
		b := &Bare{Platform: p.platform.Name}
		if err != nil || p.tried(func() { p.unlined(x, b) }) != nil {
			out[i] = b
		} else if b.Region != nil {
			out[i] = b
		}
	}
	return out
}

func (p *pair) unlined(x places, b *Bare) {
	by := make(decide.Mention, p.Traits())
	boxes := func(h *half, rows []*model.PositionRow) space.Region {
		var all []space.Box
		for _, r := range rows {
			if !r.When.SetAside && r.When.Concerns(h.Model) {
				box := h.Bounds(&r.When)
				by.Box(box)
				all = append(all, box)
			}
		}
		return p.UnionBoxes(all)
	}
	was := p.Intersect(p.common(), boxes(&p.old, x.old.Lined()))
	was = p.Intersect(was, boxes(&p.new, x.new.Rows)) // the position is still there
	if left := p.Minus(was, boxes(&p.new, x.new.Lined())); left != space.Empty {
		b.Region, b.Whole = p.region(left, nil, by), left == was
	}
}
