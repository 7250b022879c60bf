package compare

import (
	"slices"

	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// alike tells whether both releases have the same rows about a position, in the same
// order, so that they say the same of it wherever a vehicle exists in both. It makes no
// regions.
func (w *worker) alike(p *pair, old, new *model.Position) bool {
	if old == nil || new == nil {
		return old == new
	}
	a, b := p.old.RowsOf(old), p.new.RowsOf(new)
	same := slices.EqualFunc(a, b, func(x, y *model.PositionRow) bool {
		return x.Quantity == y.Quantity && p.old.Bounds(&x.When).Equal(p.new.Bounds(&y.When))
	})
	return same &&
		slices.EqualFunc(p.old.CellsOf(old), p.new.CellsOf(new), func(x, y *decide.Cell) bool {
			return x.Row.Precedence == y.Row.Precedence && x.Box.Equal(y.Box) &&
				w.key(isOld, x.Fits, 0) == w.key(isNew, y.Fits, 0)
		}) &&
		slices.EqualFunc(w.unsettled(&p.old, isOld, old), w.unsettled(&p.new, isNew, new), space.Box.Equal)
}

// sameVehicles tells whether both releases have the same Vehicles rows about the
// platform, in the same order.
func (p *pair) sameVehicles() bool {
	return p.old.Platform != nil && p.new.Platform != nil &&
		slices.EqualFunc(p.old.Vehicles(), p.new.Vehicles(), space.Box.Equal)
}
