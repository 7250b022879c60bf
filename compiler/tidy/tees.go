package tidy

import (
	"fmt"
	"slices"
)

// teeTrait says on which sides the line to an air spring has a tee.
const teeTrait = "Spring line tee"

// teePair is left and right of each other. Each takes one fitting where its own line has a
// tee and another where it has none, and both go on either side.
func teePair() []place {
	return []place{{"Line fitting left", "Line fitting", "LF-"}, {"Line fitting right", "Line fitting", "LF-"}}
}

func (m *maker) placeTees(s *Sheet, said bool) {
	pair, quantity := teePair(), fmt.Sprint(1+m.IntN(2))
	family := ""
	if said {
		family = pair[0].family
	}
	s.row(pair[0].name, quantity, "optional", family, "left", pair[1].name)
	s.row(pair[1].name, quantity, "optional", family, "right", pair[0].name)
}

// teeRows writes what stands at the pair, in a few boxes of a platform's vehicles: some people
// write a row for each side, and some a row for each value.
func (m *maker) teeRows(name string, from, to int) {
	s := m.sheet(name, len(groups()))
	all := m.whole(from, to)
	at := len(all.values) - 1
	tee := all.values[at]
	all.values[at] = nil // is not cut
	sides := m.IntN(2) == 0
	for _, b := range m.divide(all, 3) {
		pool := m.pools[teePair()[0].family]
		i := m.IntN(len(pool) - 1)
		plain, teed := pool[i], pool[i+1+m.IntN(len(pool)-1-i)]
		write := func(values []int, left, right string) {
			b.values = slices.Clone(b.values)
			b.values[at] = values
			m.write(s, name, teePair(), b, []string{left, right}, from, to)
		}
		if sides {
			write([]int{tee[0], tee[2]}, plain, "")
			write([]int{tee[1], tee[3]}, teed, "")
			write([]int{tee[0], tee[1]}, "", plain)
			write([]int{tee[2], tee[3]}, "", teed)
			continue
		}
		write(tee[:1], plain, plain)
		write(tee[1:2], teed, plain)
		write(tee[2:3], plain, teed)
		write(tee[3:], teed, teed)
	}
}
