// Package share says how much of a long test is run at hand, and how much where CI is set. For
// tests only.
package share

import (
	"os"
	"runtime/debug"
	"strconv"
	"testing"
)

// atHand is the share of a long test that is run at hand: one in so many.
const atHand = 8

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

// Roomy lets the collector wait until the heap has grown to five times what is held: tests that make
// one small catalogue after another spend a fifth of their time on it otherwise, and programs that they
// start as well.
func Roomy() {
	const percent = 400
	debug.SetGCPercent(percent)
	os.Setenv("GOGC", strconv.Itoa(percent))
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
