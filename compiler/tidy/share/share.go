// Package share says how much of a long test is run at hand, and how much where CI is set. For
// tests only.
package share

import (
	"os"
	"testing"
)

// atHand is the share of a long test that is run at hand: one in so many.
const atHand = 4

// All tells whether long tests are run whole.
func All() bool { return os.Getenv("CI") != "" }

// Of gives how many of n trials a test makes, and tells of it where those are not all.
func Of(t testing.TB, n int) int {
	t.Helper()
	if All() {
		return n
	}
	few := (n + atHand - 1) / atHand
	t.Logf("%d of %d, since CI is not set", few, n)
	return few
}

// Step gives by how many a test goes on from one trial to the next, so that those at hand are
// spread over all.
func Step(t testing.TB) int {
	t.Helper()
	if All() {
		return 1
	}
	t.Logf("one in %d, since CI is not set", atHand)
	return atHand
}
