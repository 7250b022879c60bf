package compare

import (
	"context"
	"fmt"
	"slices"

	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// looked is a grave Inspections row of OLD with the rows of NEW that ask for the same look.
type looked struct {
	*model.Inspection
	at       places // zero: the vehicle as a whole
	by, less []*model.Inspection
	bare     []Bare
	kept     *model.Inspection // of NEW: what still asks for it on other vehicles
	left     *model.Inspection // of NEW: what asks for it less gravely, the gravest
}

// inspectionLosses gives the Inspections rows of OLD, those that are a danger or a warning, that NEW has not,
// or at a lower level, or for fewer of the vehicles of both releases. How an inspection is explained makes no difference.
func (c *comparison) inspectionLosses(ctx context.Context) ([]Loss, error) {
	now := map[string][]*model.Inspection{}
	for _, n := range c.new.Catalogue.Inspections {
		now[word.Fold(n.Look)] = append(now[word.Fold(n.Look)], n)
	}
	var open []*looked
	for _, n := range c.old.Catalogue.Inspections {
		if l := c.looked(n, now[word.Fold(n.Look)]); l != nil {
			open = append(open, l)
		}
	}
	pairs := slices.DeleteFunc(c.both(), func(v versions) bool {
		return !slices.ContainsFunc(open, func(l *looked) bool { return l.When.Concerns(v.old) })
	})
	found := make([][]bareLook, len(pairs))
	err := c.each(ctx, len(pairs), func(w *worker, i int) { found[i] = w.bareLooks(pairs[i], open) })
	for _, list := range found {
		for _, b := range list {
			b.join()
		}
	}
	var out []Loss
	for _, l := range open {
		if len(l.bare) > 0 {
			out = append(out, l.loss())
		}
	}
	return out, err
}

// looked gives a row of OLD that is to be looked at on vehicles; nil where it is not grave, or a row of NEW
// says as much under the same conditions. now are the rows of NEW with the same thing to look at.
func (c *comparison) looked(old *model.Inspection, now []*model.Inspection) *looked {
	if old.When.SetAside || gravity(old) > slices.Index(model.Levels(), "warning") {
		return nil
	}
	l := &looked{Inspection: old, at: places{old: old.Position}}
	if old.Position != nil && c.positions.toNew[old.Position.Index] >= 0 {
		l.at.new = c.new.Catalogue.Positions[c.positions.toNew[old.Position.Index]]
	}
	key := c.whenKey(isOld, &old.When)
	for _, n := range now {
		switch {
		case n.When.SetAside || n.Position != l.at.new:
		case gravity(n) > gravity(old):
			l.less = append(l.less, n)
		case c.whenKey(isNew, &n.When) == key:
			return nil
		default:
			l.by = append(l.by, n)
		}
	}
	return l
}

// gravity is less for what matters more.
func gravity(n *model.Inspection) int { return slices.Index(model.Levels(), n.Level) }

// bareLook is what an inspection is no more asked for on one platform.
type bareLook struct {
	Bare
	row  *looked
	gone bool
	kept *model.Inspection
	left *model.Inspection
}

func (b *bareLook) join() {
	if b.row.kept == nil {
		b.row.kept = b.kept
	}
	if !b.gone {
		return
	}
	b.row.bare = append(b.row.bare, b.Bare)
	if b.left != nil && (b.row.left == nil || gravity(b.left) < gravity(b.row.left)) {
		b.row.left = b.left
	}
}

// bareLooks works out on one platform which vehicles are not looked at any more. Where that is too irregular,
// nothing is taken to ask for it.
func (w *worker) bareLooks(v versions, open []*looked) []bareLook {
	p, err := w.open(v)
	if err == nil {
		err = p.Try(p.settle)
	}
	var out []bareLook
	for _, l := range open {
		if !l.When.Concerns(v.old) {
			continue
		}
		b := bareLook{Bare: Bare{Platform: p.platform.Name}, row: l}
		if err != nil || p.tried(func() { p.unseen(&b) }) != nil {
			b.Region, b.gone = nil, true
		}
		out = append(out, b)
	}
	return out
}

// unseen finds the vehicles of both releases that a row was about, that have its place still, and that no row asks
// to be looked at. It runs inside Try.
func (p *pair) unseen(b *bareLook) {
	by := make(decide.Mention, p.Traits())
	in := func(h *half, when *model.When) space.Region {
		if !when.Concerns(h.Model) {
			return space.Empty
		}
		box := h.Bounds(when)
		by.Box(box)
		return p.Box(box)
	}
	was := p.Intersect(p.common(), in(&p.old, &b.row.When))
	for _, side := range []struct {
		half *half
		at   *model.Position
	}{{&p.old, b.row.at.old}, {&p.new, b.row.at.new}} {
		if side.at != nil {
			there := space.Empty
			for _, r := range side.at.Rows {
				there = p.Union(there, in(side.half, &r.When))
			}
			was = p.Intersect(was, there)
		}
	}
	rest := was
	for _, n := range b.row.by {
		same := in(&p.new, &n.When)
		if b.kept == nil && p.Intersect(was, same) != space.Empty {
			b.kept = n
		}
		rest = p.Minus(rest, same)
	}
	if rest == space.Empty {
		return
	}
	for _, n := range b.row.less {
		if (b.left == nil || gravity(n) < gravity(b.left)) && p.Intersect(rest, in(&p.new, &n.When)) != space.Empty {
			b.left = n
		}
	}
	b.gone, b.Region, b.Whole = true, p.region(rest, nil, by), rest == was
}

func (l *looked) loss() Loss {
	out := Loss{Sheet: "Inspections", Was: fmt.Sprintf("the %s %q", l.Level, inspected(l.Inspection)), Where: l.bare,
		Old: []cell.Place{l.At}, Narrower: l.kept != nil}
	if l.Position != nil {
		out.Position = l.Position.Name
	}
	switch {
	case l.left != nil:
		out.Now, out.New = "a "+l.left.Level, []cell.Place{l.left.At}
	case l.kept != nil:
		out.Now, out.New = "one where "+whenWords(&l.kept.When), []cell.Place{l.kept.At}
	}
	return out
}
