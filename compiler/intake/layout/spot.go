package layout

// grid gathers the parts that are marked at one place of one vehicle.
type grid struct {
	keys   map[string]int32
	rows   map[[2]int32][]first // by the conditions of a row and of a mark: for each head the first part that is marked
	last   []first              // those that were asked for last
	at     [2]int32             // for which
	dense  int                  // how many places have room
	sparse map[[3]int32]first   // of rows that have none
	more   map[int32][]member   // all that are, by the record of the first, where there are several
	line   []byte
}

// first is the first part that is marked at a place of a vehicle.
type first struct{ record, sign int32 } // counted from 1; 0 for none

// member is a part that is marked at a spot.
type member struct {
	record int32
	sign   *sign
}

// place takes note of a part that is marked at a place of a vehicle, of which the next record
// tells. What is told of all of them is looked for when the sheet is read.
func (g *reading) place(row, head int32, o *out) {
	m := first{int32(g.maker.Len()) + 1, g.number32(o.sign)}
	at := [2]int32{row, o.key}
	if g.grid.last == nil || g.grid.at != at {
		if g.grid.rows == nil {
			g.grid.rows, g.grid.more = map[[2]int32][]first{}, map[int32][]member{}
		}
		if g.grid.rows[at] == nil {
			g.grid.rows[at] = g.room()
		}
		g.grid.last, g.grid.at = g.grid.rows[at], at
	}
	if len(g.grid.last) == 0 {
		g.placeSparse([3]int32{row, o.key, head}, m)
		return
	}
	was := &g.grid.last[head]
	if was.record == 0 {
		*was = m
		return
	}
	g.further(*was, m)
}

// room makes a place for each head in a row, as long as that takes no more memory than the cells
// of the sheet allow; else none.
func (g *reading) room() []first {
	if g.grid.dense += int(g.headKeys); g.grid.dense > maxShown+shownRatio*g.r.stored {
		return []first{}
	}
	return make([]first, g.headKeys)
}

// placeSparse is place for rows with few marks below many heads.
func (g *reading) placeSparse(at [3]int32, m first) {
	if g.grid.sparse == nil {
		g.grid.sparse = map[[3]int32]first{}
	}
	if was, taken := g.grid.sparse[at]; taken {
		g.further(was, m)
		return
	}
	g.grid.sparse[at] = m
}

// further takes note of a part where another one is marked.
func (g *reading) further(was, m first) {
	all := g.grid.more[was.record-1]
	if all == nil {
		all = []member{g.member(was)}
	}
	g.grid.more[was.record-1] = append(all, g.member(m))
}

func (g *reading) member(f first) member {
	if f.sign == 0 {
		return member{f.record - 1, nil}
	}
	return member{f.record - 1, g.signs[f.sign-1]}
}

// number32 numbers a mark, counted from 1; 0 for none.
func (g *reading) number32(s *sign) int32 {
	if s == nil {
		return 0
	}
	return s.number
}
