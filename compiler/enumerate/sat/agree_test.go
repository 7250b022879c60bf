package sat

import (
	"flag"
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"ferrule/compiler/tidy/share"
)

// from is the first seed, to look at one catalogue again.
var from = flag.Uint64("from", 0, "the first catalogue's seed")

// TestAgreement asks until there were about 20,000 checks, or fewer that still have each answer where
// CI is not set.
func TestAgreement(t *testing.T) {
	checks := 20_000
	if !share.All() {
		checks = 5_000
		t.Logf("%d checks, since CI is not set", checks)
	}
	sum := agree(t, checks)
	for _, kind := range []string{
		"gap", "planned", "ask", "pair", "position rows", "forbidden", "line size",
		"companion missing", "companion forbidden", "indistinguishable", "unreachable row",
	} {
		require.Positive(t, sum.yes[kind], kind)
		require.Less(t, sum.yes[kind], sum.checks[kind], kind)
	}
	require.Positive(t, sum.checks["redundant cell"])
	require.Positive(t, sum.checks["kept cell"])
}

// agree goes through catalogues until there were so many checks. A position that is
// over the compiler's budget could not be compared; none of these is.
func agree(t *testing.T, checks int) *tally {
	t.Helper()
	sum, start := newTally(), time.Now()
	for seed := *from; sum.total() < checks; seed++ {
		sum.audit(seed)
		if seed%25 == 24 {
			fmt.Printf("%v: %d catalogues, %d checks, %d disagreements\n", time.Since(start).Round(time.Second), sum.catalogues, sum.total(), sum.disagreements)
		}
	}
	t.Logf("%v: %s", time.Since(start).Round(time.Second), sum)
	require.Zero(t, sum.disagreements, sum.problems)
	require.Zero(t, sum.skipped, "positions over the compiler's budget were not compared")
	return sum
}
