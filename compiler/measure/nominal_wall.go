package measure

import "math/big"

// Inside gives the inside diameter of a known size in millimetres, exactly: a hose is
// named by it, and that of a tube is the outside diameter less two walls. It is nil for a
// tube whose wall is not stated.
func (s Size) Inside() *big.Rat {
	switch {
	case !s.Known():
		return nil
	case s.Line == Hose:
		return s.MM()
	case s.Wall == nil:
		return nil
	}
	wall := s.WallMM()
	return new(big.Rat).Sub(s.MM(), wall.Add(wall, wall))
}

// WallMM gives the wall in millimetres, exactly; nil where it is not stated.
func (s Size) WallMM() *big.Rat {
	if !s.Known() || s.Wall == nil {
		return nil
	}
	return Convert(s.Wall, s.Unit, Millimetre)
}

// Bare gives a known size without its wall.
func (s Size) Bare() Size {
	s.Wall = nil
	s.Text = s.statement(s.Unit)
	return s
}
