// Package space is exact set algebra over configurations.
package space

import (
	"errors"
	"math/big"
)

// Set is a set of values of one trait: bit v%64 of word v/64 is value v. A Set is
// never changed once it is in a Box. Trailing zero words may be missing.
type Set []uint64

// Box is a product of sets, one per trait; nil stands for every value of the
// trait. A Box that is shorter than the space has nil for the rest.
type Box []Set

// Region is a set of configurations, built by a Space and meaningful only there,
// until the next Reset.
type Region int32

// Empty and Full are the same in every space.
const (
	Empty Region = 0
	Full  Region = 1
)

// ErrBudget says that an answer needs more nodes than the space may use.
var ErrBudget = errors.New("space: node budget used up")

// Space holds the regions over one list of traits.
type Space struct{}

// Options of a Space.
type Options struct {
	// Order of the traits in diagrams, outermost first; nil is the declared order.
	// It changes speed and never an answer.
	Order []int
	// Budget is the number of nodes that may be made before ErrBudget; 0 is 4 million.
	Budget int
}

func New(sizes []int, o Options) *Space { panic("space: unbuilt") }

// Reset forgets all regions and keeps the memory, for another list of traits.
func (s *Space) Reset(sizes []int, o Options) { panic("space: unbuilt") }

// Try runs f; when f runs out of nodes it stops f and returns ErrBudget, with the
// regions made before f still valid (and the budget what it was before f). All
// methods below that make regions panic with an internal value outside Try when the
// budget is used up, and Try is what recovers it.
func (s *Space) Try(f func()) error { panic("space: unbuilt") }

func (s *Space) Box(b Box) Region                { panic("space: unbuilt") }
func (s *Space) Union(a, b Region) Region        { panic("space: unbuilt") }
func (s *Space) Intersect(a, b Region) Region    { panic("space: unbuilt") }
func (s *Space) Minus(a, b Region) Region        { panic("space: unbuilt") }
func (s *Space) UnionAll(rs []Region) Region     { panic("space: unbuilt") }
func (s *Space) UnionBoxes(bs []Box) Region      { panic("space: unbuilt") }
func (s *Space) Count(r Region) *big.Int         { panic("space: unbuilt") }
func (s *Space) CountIn(r Region, b Box) *big.Int { panic("space: unbuilt") }
func (s *Space) Meets(r Region, b Box) bool      { panic("space: unbuilt") }

// First gives the first configuration of r in declared order (trait 0 first, each
// trait by ascending value); false where r is empty.
func (s *Space) First(r Region) ([]int, bool) { panic("space: unbuilt") }

// Contains tells whether one configuration is in r.
func (s *Space) Contains(r Region, c []int) bool { panic("space: unbuilt") }

// Cover lists few boxes whose union, inside care, is exactly goal (goal is a subset
// of care). At most max boxes are listed; rest is what they leave out of goal.
func (s *Space) Cover(goal, care Region, max int) (boxes []Box, rest Region) {
	panic("space: unbuilt")
}

// Partition splits care into boxes that no two share a configuration (not even one
// outside care), each holding configurations of one class only; classes are disjoint
// and their union is care. Boxes are few and restrict few traits. The result is in
// the order of each box's first configuration in care.
func (s *Space) Partition(classes []Region, care Region) []Cell { panic("space: unbuilt") }

// Cell is a box of a partition with the index of its class.
type Cell struct {
	Box   Box
	Class int
}

// Pairs calls emit with i < j for every two boxes that meet each other inside care,
// in order of i, then j, until emit returns false.
func (s *Space) Pairs(rows []Box, care Region, emit func(i, j int) bool) { panic("space: unbuilt") }
