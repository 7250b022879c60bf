package space

import "math/big"

// op is a way to combine two regions.
type op int32

const (
	union op = iota
	intersect
	minus
	join  // union of functions with labels that agree where both are defined
	plus  // sum of functions whose labels are numbers
	times // product of functions whose labels are numbers
	agree // whether two functions with labels agree; the result is Full or Empty
)

// keepsLeft tells whether the result is a where only a is defined.
func (o op) keepsLeft() bool { return o != intersect && o != times }

// keepsRight tells whether the result is b where only b is defined.
func (o op) keepsRight() bool { return o.keepsLeft() && o != minus }

// Union gives the configurations in either region.
func (s *Space) Union(a, b Region) Region { return s.apply(union, a, b) }

// Intersect gives the configurations in both regions.
func (s *Space) Intersect(a, b Region) Region { return s.apply(intersect, a, b) }

// Minus gives the configurations of a that are not in b.
func (s *Space) Minus(a, b Region) Region { return s.apply(minus, a, b) }

// Box gives the configurations of a box. Values that a trait does not have are
// ignored.
func (s *Space) Box(b Box) Region {
	if _, ok := s.load(b); !ok {
		return Empty
	}
	r := Full
	for l := len(s.order) - 1; l >= 0; l-- {
		if s.look[l] == nil {
			continue
		}
		kids, masks := len(s.frame.kids), len(s.frame.masks)
		dst := s.frame.slot(kids, masks, s.words[l], r)
		for i, w := range s.whole[l] {
			dst[i] = s.look[l].word(i) & w
		}
		r = s.seal(int32(l), kids, masks)
	}
	return r
}

// simple answers without looking below a and b, where that is possible.
func (s *Space) simple(o op, a, b Region) (Region, bool) {
	switch o {
	case union:
		switch {
		case a == b, b == Empty:
			return a, true
		case a == Empty:
			return b, true
		case a == Full, b == Full:
			return Full, true
		}
	case intersect:
		switch {
		case a == b, b == Full:
			return a, true
		case a == Full:
			return b, true
		case a == Empty, b == Empty:
			return Empty, true
		}
	case minus:
		switch {
		case a == b, a == Empty, b == Full:
			return Empty, true
		case b == Empty:
			return a, true
		}
	case join:
		switch {
		case a == b, b == Empty:
			return a, true
		case a == Empty:
			return b, true
		case a < 2 && b < 2:
			panic("space: classes overlap")
		}
	case plus:
		switch {
		case b == Empty:
			return a, true
		case a == Empty:
			return b, true
		case a < 2 && b < 2:
			return s.numberLabel(new(big.Int).Add(s.number(a), s.number(b))), true
		}
	case times:
		switch {
		case a == Empty, b == Empty:
			return Empty, true
		case a < 2 && b < 2:
			return s.numberLabel(new(big.Int).Mul(s.number(a), s.number(b))), true
		}
	}
	return Empty, false
}

func (s *Space) apply(o op, a, b Region) Region {
	if r, ok := s.simple(o, a, b); ok {
		return r
	}
	if o != minus && a > b {
		a, b = b, a
	}
	if r, ok := s.cache.get(o, a, b); ok {
		return r
	}
	s.steps++
	s.walked += walkPerStep
	if s.steps > stepsPerNode*s.budget || s.walked > s.end {
		panic(spent{s})
	}
	level := min(s.at(a), s.at(b))
	kids, masks := len(s.frame.kids), len(s.frame.masks)
	switch {
	case s.at(a) != s.at(b):
		s.oneSided(o, a, b, kids, masks)
	case s.words[level] == 1:
		s.narrow(o, a, b, kids, masks)
	default:
		s.broad(o, a, b, kids, masks)
	}
	r := s.seal(level, kids, masks)
	s.cache.put(o, a, b, r, len(s.nodes))
	return r
}

// oneSided applies o where only the higher of a and b decides at its level.
func (s *Space) oneSided(o op, a, b Region, kids, masks int) {
	left := s.at(a) < s.at(b)
	top, rest := a, b // rest: what is left where top has no edge
	if !left {
		top, rest = b, a
	}
	if left && !o.keepsRight() || !left && !o.keepsLeft() {
		rest = Empty
	}
	n := s.nodes[top]
	w := s.words[n.level]
	for i := range int(n.n) {
		k := s.kids[int(n.kid)+i]
		var r Region
		if left {
			r = s.apply(o, k, b)
		} else {
			r = s.apply(o, a, k)
		}
		if r != Empty {
			dst := s.frame.slot(kids, masks, w, r)
			for j, m := range s.set(n, i, w) {
				dst[j] |= m
			}
		}
	}
	if rest == Empty {
		return
	}
	for j, m := range s.whole[n.level] {
		for i := range int(n.n) {
			m &^= s.masks[int(n.mask)+i*w+j]
		}
		if m != 0 {
			s.frame.slot(kids, masks, w, rest)[j] |= m
		}
	}
}

// narrow applies o to two nodes of one level with at most 64 values.
func (s *Space) narrow(o op, a, b Region, kids, masks int) {
	na, nb := s.nodes[a], s.nodes[b]
	var hasA, hasB uint64
	for j := range uint32(nb.n) {
		hasB |= s.masks[nb.mask+j]
	}
	for i := range uint32(na.n) {
		ma, ka := s.masks[na.mask+i], s.kids[na.kid+i]
		hasA |= ma
		if m := ma &^ hasB; m != 0 && o.keepsLeft() {
			s.frame.add(kids, masks, m, ka)
		}
		for j := range uint32(nb.n) {
			m := ma & s.masks[nb.mask+j]
			if m == 0 {
				continue
			}
			if r := s.apply(o, ka, s.kids[nb.kid+j]); r != Empty {
				s.frame.add(kids, masks, m, r)
			}
			if ma &^= m; ma == 0 {
				break
			}
		}
	}
	if o.keepsRight() {
		for j := range uint32(nb.n) {
			if m := s.masks[nb.mask+j] &^ hasA; m != 0 {
				s.frame.add(kids, masks, m, s.kids[nb.kid+j])
			}
		}
	}
}

// broad applies o to two nodes of one level with more than 64 values.
func (s *Space) broad(o op, a, b Region, kids, masks int) {
	na, nb := s.nodes[a], s.nodes[b]
	w := s.words[na.level]
	for i := range int(na.n) {
		ka := s.kids[int(na.kid)+i]
		for j := range int(nb.n) {
			if !s.set(na, i, w).Meets(s.set(nb, j, w)) {
				continue
			}
			if r := s.apply(o, ka, s.kids[int(nb.kid)+j]); r != Empty {
				dst := s.frame.slot(kids, masks, w, r)
				x, y := s.set(na, i, w), s.set(nb, j, w)
				for k := range dst {
					dst[k] |= x[k] & y[k]
				}
			}
		}
	}
	if o.keepsLeft() {
		s.leftover(na, nb, kids, masks)
	}
	if o.keepsRight() {
		s.leftover(nb, na, kids, masks)
	}
}

// leftover adds the edges of a node for the values that another has no edge for.
func (s *Space) leftover(n, other node, kids, masks int) {
	w := s.words[n.level]
	for k := range w {
		var has uint64
		for j := range int(other.n) {
			has |= s.masks[int(other.mask)+j*w+k]
		}
		for i := range int(n.n) {
			if m := s.masks[int(n.mask)+i*w+k] &^ has; m != 0 {
				s.frame.slot(kids, masks, w, s.kids[int(n.kid)+i])[k] |= m
			}
		}
	}
}
