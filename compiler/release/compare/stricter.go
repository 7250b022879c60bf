package compare

import (
	"math/big"

	"ferrule/compiler/formula"
	"ferrule/compiler/measure"
	"ferrule/compiler/model"
	"ferrule/schema/word"
)

// bound is a limit put as `more at least less`, where it is not `equal to`.
type bound struct{ more, less string }

func boundOf(l *model.Limit) (bound, bool) {
	switch word.Fold(l.Must) {
	case formula.AtLeast.String():
		return bound{word.Fold(l.Left), word.Fold(l.Right)}, true
	case formula.AtMost.String():
		return bound{word.Fold(l.Right), word.Fold(l.Left)}, true
	}
	return bound{}, false
}

// stricter tells whether a limit of NEW asks for all that one of OLD does, and for more: one
// side is the same and the other a quantity that leaves less.
func (c *comparison) stricter(old, now *model.Limit) bool {
	a, ok := boundOf(old)
	b, both := boundOf(now)
	if !ok || !both {
		return false
	}
	if a.more == b.more {
		_, was := c.constant(isOld, a.less)
		_, is := c.constant(isNew, b.less)
		return was != nil && is != nil && is.Cmp(was) >= 0
	}
	was, _ := c.constant(isOld, a.more)
	is, _ := c.constant(isNew, b.more)
	return a.less == b.less && was != nil && is != nil && is.Cmp(was) <= 0
}

// constant gives the ends of a side of a limit that is one quantity, in SI units; nil where
// it is anything else. Both releases compare a side with the same name, so that the kinds
// of their quantities are the same.
func (c *comparison) constant(s which, text string) (low, high *big.Rat) {
	cat := c.old.Catalogue
	if s == isNew {
		cat = c.new.Catalogue
	}
	q, err := measure.ParseQuantityIn(text, measure.One, measure.Options{Comma: cat.Settings.DecimalComma})
	if err != nil || !q.Known() {
		return nil, nil
	}
	return q.SI()
}
