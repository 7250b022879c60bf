package decide

import (
	"iter"

	"ferrule/compiler/space"
)

// Values are numbers of what a platform's vehicles have in one respect: of a trait,
// indexes of its values, Absent included; of the model year, indexes of the platform's years.
type Values space.Set

// ValuesOf gives a set of some numbers.
func ValuesOf(numbers ...int) Values { return Values(space.SetOf(numbers...)) }

// Has tells whether v is one of them.
func (s Values) Has(v int) bool { return space.Set(s).Has(v) }

// Len is how many there are.
func (s Values) Len() int { return space.Set(s).Len() }

// Runs goes through the longest ranges of successive numbers, in ascending order, each
// as its first and last.
func (s Values) Runs() iter.Seq2[int, int] { return space.Set(s).Runs() }

// Among gives the places that values have among others, from 0: of those that occur, say,
// where what does not is not counted.
func (s Values) Among(others Values) Values {
	out := make(space.Set, len(s)) // no place is greater than its value
	place := 0
	for v := range space.Set(others).Values() {
		if s.Has(v) {
			out[place/64] |= 1 << (place % 64)
		}
		place++
	}
	return Values(out)
}
