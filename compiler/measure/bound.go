package measure

// Bound says whether a Quantity is what something measures, or the most or the least that
// it may: 120 psi, max 120 psi. Of a bound both ends are the same, and nothing can be
// worked out with it, since what lies beyond is not known.
type Bound uint8

const (
	Exactly Bound = iota
	AtMost
	AtLeast
)

func (b Bound) String() string { return [...]string{"", "max", "min"}[b] }

// Bound of a known quantity.
func (q Quantity) Bound() Bound { return q.bound }

// limiting reads words that make a bound of a value: max, at most, up to, min, at least.
func (p *parser) limiting() Bound {
	if !p.at(word) {
		return Exactly
	}
	first, second := p.peek(0).text, p.peek(1).text
	for _, w := range []struct {
		first, second string
		bound         Bound
	}{
		{"max", "", AtMost}, {"maximum", "", AtMost}, {"min", "", AtLeast}, {"minimum", "", AtLeast},
		{"at", "most", AtMost}, {"up", "to", AtMost}, {"at", "least", AtLeast},
	} {
		switch {
		case first != w.first || w.second != "" && second != w.second:
			continue
		case w.second != "":
			p.next()
		}
		p.next()
		return w.bound
	}
	return Exactly
}

// limited reads such words behind a value as well, alone or in brackets, and refuses two
// that differ and ranges that have them.
func (p *parser) limited(before Bound, e extent) (Bound, error) {
	saved := p.tokens
	inside := p.accept('(')
	behind := p.limiting()
	switch {
	case inside && (behind == Exactly || !p.accept(')')):
		p.tokens, behind = saved, Exactly
	case before != Exactly && behind != Exactly:
		return before, p.faultf("max or min stands here twice; write max 120 psi, or a range such as 100-120 psi")
	}
	bound := max(before, behind)
	if bound != Exactly && e.low.value.Cmp(e.high.value) != 0 {
		return bound, p.faultf("a range has both ends, so it needs no %s; write 100-120 psi or max 120 psi", bound)
	}
	return bound, nil
}
