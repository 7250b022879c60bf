package bind

import (
	"fmt"
	"math/big"

	"ferrule/compiler/measure"
	"ferrule/schema/word"
)

// contradiction says what in a Sizes row does not agree, and in which column; "" where
// all does.
func contradiction(s measure.Size, f dimensions) (column, why string) {
	around := s.MM()
	if s.Line == measure.Tube {
		column, why = tubeContradiction(s, f)
	} else {
		column, why = hoseContradiction(s, f)
		if f.outside != nil {
			around = f.outside
		}
	}
	// The tables allow at most 2.5 %; more is probably another unit.
	if why == "" && f.tolerance != nil && f.tolerance.Cmp(share(around, 10)) > 0 {
		return "Tolerance", fmt.Sprintf("a tolerance of %s is more than a tenth of %s; write the one of the outside diameter, in its unit", mm(f.tolerance), mm(around))
	}
	return column, why
}

func tubeContradiction(s measure.Size, f dimensions) (column, why string) {
	switch {
	case f.outside != nil && !agree(s.MM(), f.outside, nil):
		return "Outside diameter", fmt.Sprintf("a tube is named by its outside diameter, and that of %s is not %s; correct one of the two, or write %s hose if the name is an inside diameter",
			s.Name(), mm(f.outside), s.Bare().Name())
	case f.wall == nil:
		return "", ""
	case s.Wall != nil && s.WallMM().Cmp(f.wall) != 0:
		return "Wall", fmt.Sprintf("%s states a wall of %s, and Wall is %s; write the one that is meant", s.Name(), mm(s.WallMM()), mm(f.wall))
	case twice(f.wall).Cmp(s.MM()) >= 0:
		return "Wall", fmt.Sprintf("a wall of %s leaves nothing inside a tube of %s; a wall is less than half the outside diameter", mm(f.wall), s.Name())
	}
	return "", ""
}

func hoseContradiction(s measure.Size, f dimensions) (column, why string) {
	switch {
	case f.outside == nil:
		return "", ""
	case f.outside.Cmp(s.MM()) <= 0:
		return "Outside diameter", fmt.Sprintf("a hose is named by its inside diameter, and an outside diameter of %s is no more than that of %s; correct one of the two, or leave out hose if the name is an outside diameter",
			mm(f.outside), s.Name())
	case f.wall == nil:
		return "", ""
	}
	if left := new(big.Rat).Sub(f.outside, twice(f.wall)); !agree(f.outside, new(big.Rat).Add(s.MM(), twice(f.wall)), f.tolerance) {
		return "Wall", fmt.Sprintf("walls of %s leave %s of an outside diameter of %s, and %s is named by its inside diameter; correct one of the three",
			mm(f.wall), mm(left), mm(f.outside), s.Name())
	}
	return "", ""
}

// againstTables says what in a row contradicts a built-in table.
func againstTables(r measure.Row) (column, why string) {
	if n, ok := measure.Rounded(r.Size); ok {
		return "Nominal", fmt.Sprintf("%s is %s rounded and would match nothing that is called so; write %s", r.Size.Name(), n, n.Name())
	}
	var own []measure.Row
	for _, n := range measure.Standard().Of(r.Size) {
		if word.Fold(n.System) == word.Fold(r.System) {
			own = append(own, n)
		}
	}
	if len(own) == 0 {
		return "", ""
	}
	fits := false
	for _, n := range own {
		fits = fits || n.Admits(r.Size)
		if r.Tolerance != nil && n.Tolerance != nil && r.Tolerance.Cmp(n.Tolerance) != 0 {
			return "Tolerance", fmt.Sprintf("%s allows %s a tolerance of %s (%s), not %s; correct it, or give the system another name",
				n.System, n.Size.Name(), length(n.Tolerance, n.Size.Unit), n.Reference(), length(r.Tolerance, n.Size.Unit))
		}
	}
	if !fits {
		return "Wall", fmt.Sprintf("%s has %s for this diameter, not %s; correct it, or give the system another name",
			own[0].System, walls(own), length(r.Size.WallMM(), r.Size.Unit))
	}
	return "", ""
}

// agree tells whether two lengths are the same within a tolerance, or within a rounding to
// three digits where that is more.
func agree(a, b, tolerance *big.Rat) bool {
	off := new(big.Rat).Sub(a, b)
	off.Abs(off)
	return off.Cmp(share(a, 250)) <= 0 || tolerance != nil && off.Cmp(tolerance) <= 0
}

// share is the nth part.
func share(a *big.Rat, n int64) *big.Rat { return new(big.Rat).Mul(a, big.NewRat(1, n)) }

func twice(a *big.Rat) *big.Rat { return new(big.Rat).Add(a, a) }

func mm(a *big.Rat) string { return measure.Decimal(a, 4) + " mm" }
