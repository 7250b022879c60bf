package compare

import (
	"context"

	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// renamePositions joins positions of which the same is said everywhere.
func (c *comparison) renamePositions(ctx context.Context) error {
	a, b := c.old.Catalogue.Positions, c.new.Catalogue.Positions
	found, err := c.hold(ctx, c.both(), matches(c.positions.gone(), c.positions.came(), always),
		func(w *worker, p *pair, m match) vote { return w.samePosition(p, a[m.old], b[m.new]) })
	if err != nil {
		return err
	}
	for _, m := range single(found) {
		c.positions.join(m.old, m.new)
		c.tell(Rename{What: Position, Old: a[m.old].Name, New: b[m.new].Name, Why: "the same is fitted on the same vehicles"})
	}
	return nil
}

// samePosition tells whether OLD says of one position what NEW says of another on all
// vehicles of both. Where nothing is fitted, that says nothing.
func (w *worker) samePosition(p *pair, old, new *model.Position) vote {
	if !w.known(p, places{old, new}) {
		return against
	}
	was, is := w.look(p, isOld, old, p.common()), w.look(p, isNew, new, p.common())
	same := func(r space.Region) space.Region { return r }
	if !sameStates(was, is, same, same) {
		return against
	}
	for _, s := range was.states {
		if s.Outcome == model.Fitted {
			return bears
		}
	}
	return silent
}
