package space

// Spend counts steps of work that is done beside regions, such as going through pairs
// of boxes, against what Try allows for the steps of operations.
func (s *Space) Spend(steps int) {
	if s.steps += steps; s.steps > stepsPerNode*s.budget {
		panic(spent{s})
	}
}
