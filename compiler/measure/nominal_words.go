package measure

// Apart says how far apart the diameters of two known sizes are: `5/16 in (7.938 mm) and
// 8 mm are 0.06 mm apart`.
func Apart(a, b Size) string {
	off := gap(a, b)
	places := 2
	for off.Sign() != 0 && Decimal(off, places) == "0" && places < maxDigits {
		places++
	}
	return a.metric() + " and " + b.metric() + " are " + Decimal(off, places) + " mm apart"
}

// metric is the size as it is named, with millimetres in brackets where it is in inches.
func (s Size) metric() string {
	if s.Unit != Millimetre {
		return s.String()
	}
	return s.Name()
}

// Name gives a known size in its own unit alone, exactly: `8x1 mm`, `1/2 in hose`.
func (s Size) Name() string {
	if s.Line == Hose {
		return s.statement(s.Unit) + " hose"
	}
	return s.statement(s.Unit)
}

// Named says by which diameter a tube or a hose is named: outside, inside (49 CFR 571.106,
// S4).
func (o LineKind) Named() string {
	if o == Hose {
		return "inside"
	}
	return "outside"
}
