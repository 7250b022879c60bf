// Package small has a line that its tests hold and one that they do not.
package small

// Least gives the lesser of two numbers: which of two equal ones, nobody can tell.
func Least(a, b int) int {
	if a < b {
		return a
	}
	return b
}

// Down counts down to 0.
func Down(n int) (steps int) {
	for n != 0 {
		n--
		steps++
	}
	return steps
}

// Sign gives -1 or 1.
func Sign(negative bool) int {
	switch {
	case negative:
		return -1
	default:
		return 1
	}
}
