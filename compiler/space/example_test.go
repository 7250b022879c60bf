package space_test

import (
	"fmt"

	"ferrule/compiler/space"
)

// Three traits of a chassis: its model year (2004 to 2007), its spring (steel, air,
// rubber) and whether it has a lift axle (yes, no). Who has a steel spring has no
// lift axle. Two rows say which damper fits.
func Example() {
	years := []int{2004, 2005, 2006, 2007}
	springs := []string{"steel", "air", "rubber"}
	lift := []string{"lift axle", "no lift axle"}
	s := space.New([]int{4, 3, 2}, space.Options{})

	exist := s.UnionBoxes([]space.Box{
		{nil, space.SetOf(0), space.SetOf(1)},
		{nil, space.SetOf(1, 2)},
	})
	rows := []space.Box{
		{space.Range(0, 1), space.SetOf(0, 1)},
		{space.Range(1, 3), space.SetOf(1), space.SetOf(0)},
	}
	fmt.Println("configurations:", s.Count(exist))

	gap := s.Minus(exist, s.UnionBoxes(rows))
	first, _ := s.First(gap)
	fmt.Println("without a damper:", s.Count(gap))
	fmt.Println("for example:", years[first[0]], springs[first[1]], lift[first[2]])

	boxes, _ := s.Cover(gap, exist, 100)
	for _, b := range boxes {
		fmt.Println("gap:", b)
	}
	s.Pairs(rows, exist, func(i, j int) bool {
		both, _ := rows[i].Intersect(rows[j])
		fmt.Printf("rows %d and %d both say: %v\n", i, j, both)
		return true
	})
	// Output:
	// configurations: 20
	// without a damper: 12
	// for example: 2004 rubber lift axle
	// gap: 1{2}
	// gap: 0{2-3} 2{1}
	// rows 0 and 1 both say: 0{1} 1{1} 2{0}
}
