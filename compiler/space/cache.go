package space

// cache remembers results of apply, each in one place that a later one may take.
type cache struct{ entries []entry }

type entry struct {
	op   op
	a, b Region
	r    Region
}

const (
	firstCache = 1 << 10
	lastCache  = 1 << 22
)

// free is the op of an entry that holds nothing.
const free op = -1

func (c *cache) reset() { c.resize(firstCache) }

func (c *cache) resize(n int) {
	if cap(c.entries) < n {
		c.entries = make([]entry, n)
	}
	c.entries = c.entries[:n]
	for i := range c.entries {
		c.entries[i] = entry{op: free}
	}
}

func (c *cache) place(o op, a, b Region) *entry {
	h := mix(uint64(uint32(a))<<32 | uint64(uint32(b)) ^ uint64(o)<<61)
	return &c.entries[h&uint64(len(c.entries)-1)]
}

func (c *cache) get(o op, a, b Region) (Region, bool) {
	e := c.place(o, a, b)
	return e.r, e.a == a && e.b == b && e.op == o
}

// put stores a result; the cache grows with the number of nodes.
func (c *cache) put(o op, a, b, r Region, nodes int) {
	if nodes > len(c.entries) && len(c.entries) < lastCache {
		c.grow()
	}
	*c.place(o, a, b) = entry{o, a, b, r}
}

func (c *cache) grow() {
	old := c.entries
	if cap(old) >= 2*len(old) {
		old = append([]entry(nil), old...)
	}
	c.resize(2 * len(old))
	for _, e := range old {
		if e.op != free {
			*c.place(e.op, e.a, e.b) = e
		}
	}
}
