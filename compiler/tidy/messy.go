package tidy

import (
	"fmt"
	"strings"
)

// messyRows is how many rows a platform of a messy catalogue has.
const messyRows = 120

// mess writes the rows of one platform as nobody should: each about vehicles, at positions
// and with parts at random.
func (m *maker) mess(name string, from, to int) {
	s := m.sheet(name, 0)
	places := places()
	for range messyRows {
		cells := map[string]string{"Platform": name, "Precedence": fmt.Sprint(m.IntN(3))}
		if m.IntN(4) == 0 {
			a, b := from+m.IntN(to-from+1), from+m.IntN(to-from+1)
			cells["Years"] = span(min(a, b), max(a, b))
		}
		for _, t := range m.traits() {
			if m.IntN(4) == 0 {
				cells[t.name] = strings.Join(m.some(t.values), ", ")
			}
		}
		for range 1 + m.IntN(2) {
			p := places[m.IntN(len(places))]
			pool := m.pools[p.family]
			cells[p.name] = pool[m.IntN(len(pool))]
		}
		row := make([]string, len(s.Rows[0]))
		for i, head := range s.Rows[0] {
			row[i] = cells[head]
		}
		s.row(row...)
	}
}

// places are all positions.
func places() []place {
	var out []place
	for _, g := range groups() {
		out = append(out, g...)
	}
	return out
}
