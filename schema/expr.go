package schema

// expr decides whether a row meets a schema from the columns that it fills and the
// verdicts about its cells. All that it names must hold.
type expr struct {
	never  bool
	filled mask    // columns that must be filled
	blank  mask    // columns that must be blank
	since  []since // columns that must be filled if another is
	cells  []claims
	all    []*expr
	some   []*expr // at least one, where there are any
	one    []*expr // exactly one, where there are any
	not    *expr
	when   *expr // nil: neither then nor otherwise counts
	then   *expr
	other  *expr
}

// since is one property of dependentRequired.
type since struct {
	column int
	filled mask
}

// claims are bits of the verdict about a column's cell that must be set.
type claims struct {
	column int
	bits   uint64
}

// allHold is the verdict about a blank cell: schemas of a property say nothing of a
// row without it.
const allHold = ^uint64(0)

func (e *expr) holds(filled mask, held []uint64) bool {
	if e.never || !e.filled.within(filled) || e.blank.meets(filled) {
		return false
	}
	for _, s := range e.since {
		if filled.has(s.column) && !s.filled.within(filled) {
			return false
		}
	}
	for _, c := range e.cells {
		if held[c.column]&c.bits != c.bits {
			return false
		}
	}
	for _, x := range e.all {
		if !x.holds(filled, held) {
			return false
		}
	}
	return e.alternatives(filled, held)
}

func (e *expr) alternatives(filled mask, held []uint64) bool {
	if len(e.some) > 0 && howMany(e.some, filled, held) == 0 ||
		len(e.one) > 0 && howMany(e.one, filled, held) != 1 ||
		e.not != nil && e.not.holds(filled, held) {
		return false
	}
	if e.when == nil {
		return true
	}
	branch := e.other
	if e.when.holds(filled, held) {
		branch = e.then
	}
	return branch == nil || branch.holds(filled, held)
}

// howMany gives the number of expressions that hold.
func howMany(list []*expr, filled mask, held []uint64) int {
	n := 0
	for _, e := range list {
		if e.holds(filled, held) {
			n++
		}
	}
	return n
}

// mask is a set of columns; the empty one may be nil.
type mask []uint64

func newMask(columns int) mask { return make(mask, (columns+63)/64) }

func (m mask) set(column int) { m[column/64] |= 1 << (column % 64) }

func (m mask) has(column int) bool { return m[column/64]>>(column%64)&1 == 1 }

// within tells that all of m is in n.
func (m mask) within(n mask) bool {
	for i, word := range m {
		if word&^n[i] != 0 {
			return false
		}
	}
	return true
}

// meets tells that m and n have a column in common.
func (m mask) meets(n mask) bool {
	for i, word := range m {
		if word&n[i] != 0 {
			return true
		}
	}
	return false
}
