//go:build long

package sat

import "testing"

// TestLong asks over a million questions; the package comment has its command.
func TestLong(t *testing.T) { agree(t, 1_100_000) }
