package space

// visits is a set of nodes that is emptied in no time.
type visits struct {
	stamp []uint32 // of each node; in the set where it is now
	now   uint32
}

// begin empties the set and makes room for n nodes.
func (v *visits) begin(n int) {
	if len(v.stamp) < n {
		v.stamp = append(v.stamp, make([]uint32, n+n/2-len(v.stamp))...)
	}
	if v.now++; v.now == 0 {
		clear(v.stamp)
		v.now = 1
	}
}

func (v *visits) has(r Region) bool { return v.stamp[r] == v.now }
func (v *visits) add(r Region)      { v.stamp[r] = v.now }

// forget makes nodes that are not there any more unknown.
func (v *visits) forget() { v.begin(0) }

// memo remembers one region for each node.
type memo struct {
	visits
	result []Region
}

func (m *memo) begin(n int) {
	m.visits.begin(n)
	if len(m.result) < len(m.stamp) {
		m.result = append(m.result, make([]Region, len(m.stamp)-len(m.result))...)
	}
}

func (m *memo) put(r, result Region) Region {
	m.add(r)
	m.result[r] = result
	return result
}
