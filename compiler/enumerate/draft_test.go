package enumerate

import (
	"fmt"
	"math/rand/v2"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// acceptedFile sorts behind the workbooks of a random catalogue.
const acceptedFile = "accepted by the test.xlsx"

// draftSeeds is how many random catalogues have findings accepted: fewer than reach several
// kinds are of no use, and as many as that are made at hand.
func draftSeeds() int { return max(usual(9, fewestAsked), askedSeeds()/2) }

// TestDraftedRows has all findings of a code accepted, in random catalogues: a build
// with the new workbook must tell all of them as accepted and everything else as before.
func TestDraftedRows(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 2))
	codes := map[string]int{}
	for seed := range uint64(draftSeeds()) {
		c := generate(seed)
		dir := t.TempDir()
		before := written(t, c, dir)
		code := openCode(before, r)
		if code == "" {
			continue
		}
		status, said := accepted(dir, code, acceptedFile)
		require.Zero(t, status, "seed %d: %s", seed, said)
		after := compile(t, dir)
		want, got := map[string]int{}, map[string]int{}
		for _, f := range before.findings {
			want[tale(f, f.Code == code && f.Accepted == nil)]++
		}
		for _, f := range after.findings {
			got[tale(f, f.Accepted != nil && f.Accepted.Cell.File == acceptedFile)]++
		}
		// A finding may be accepted in pieces, one for each row.
		require.Equal(t, sums(before, func(f finding) bool { return f.Code == code && f.Accepted == nil }),
			sums(after, func(f finding) bool { return f.Accepted != nil && f.Accepted.Cell.File == acceptedFile }), "seed %d: %s", seed, code)
		for what := range got {
			require.Contains(t, want, what, "seed %d", seed)
		}
		for what := range want {
			require.Contains(t, got, what, "seed %d", seed)
		}
		codes[code]++
	}
	require.Greater(t, len(codes), 5, "%v", codes)
}

// openCode picks a code about vehicles that a finding still has.
func openCode(o output, r *rand.Rand) string {
	var codes []string
	for _, f := range o.findings {
		if f.Accepted == nil && f.Configurations > 0 {
			codes = append(codes, f.Code)
		}
	}
	if len(codes) == 0 {
		return ""
	}
	return codes[r.IntN(len(codes))]
}

// tale says a finding without what acceptance changes: where it is accepted, how many
// vehicles and which row.
func tale(f finding, accepted bool) string {
	size := fmt.Sprint(f.Configurations)
	if accepted {
		size = "accepted"
	}
	by := ""
	if f.Accepted != nil && !accepted {
		by = f.Accepted.Cell.String()
	}
	return fmt.Sprint(f.Code, f.Severity, f.Platform, f.Position, f.Part, f.Cells, size, by)
}

// sums adds up the configurations of findings, by what they are about.
func sums(o output, in func(finding) bool) map[string]int {
	out := map[string]int{}
	for _, f := range o.findings {
		if in(f) {
			out[fmt.Sprint(f.Code, f.Platform, f.Position, f.Part, f.Cells)] += f.Configurations
		}
	}
	return out
}

// TestDraftedRowsQuietNothingElse has the gaps of random catalogues accepted and then
// takes a fitment row away: of the gaps that follow, exactly the configurations that were
// no gap before are told.
func TestDraftedRowsQuietNothingElse(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 4))
	fresh := 0
	for seed := range uint64(draftSeeds()) {
		c := generate(seed)
		dir := t.TempDir()
		if openGaps(written(t, c, dir)) == 0 {
			continue
		}
		first := c.enumerate()
		f, second := c.baring(r, first)
		if f == nil {
			continue
		}
		status, said := accepted(dir, "coverage-gap", acceptedFile)
		require.Zero(t, status, "seed %d: %s", seed, said)
		f.gone = true
		require.NoError(t, c.write(dir)) // beside the workbook that was written
		out, err := build(dir, filepath.Join(t.TempDir(), "out"))
		require.NoError(t, err)
		f.gone = false

		want := c.freshGaps(first, second)
		for _, n := range want {
			fresh += n
		}
		got := map[string]int{}
		for _, f := range out.findings {
			if f.Code == "coverage-gap" && f.Accepted == nil {
				got[f.Platform+", "+f.Position] = f.Configurations
			}
		}
		assert.Equal(t, want, got, "seed %d", seed)
	}
	require.Greater(t, fresh, askedOf(400), "hardly any new gap")
}

// baring picks a row without which there are gaps that were none, of a few that are tried the
// last one if there is no such row; it gives what the enumeration says without the row.
func (c *catalogue) baring(r *rand.Rand, first *outlook) (f *fit, second *outlook) {
	for range 12 {
		if f = c.readable(r); f == nil {
			return nil, nil
		}
		f.gone = true
		second = c.enumerate()
		f.gone = false
		if len(c.freshGaps(first, second)) > 0 {
			break
		}
	}
	return f, second
}

// freshGaps counts, by platform and position, the open gaps that were none before.
func (c *catalogue) freshGaps(first, second *outlook) map[string]int {
	out := map[string]int{}
	for id, e := range second.findings {
		if id.code != "coverage-gap" {
			continue
		}
		n := 0
		for _, i := range c.split(e).open {
			if old := first.findings[id]; old == nil || !holdsInt(c.split(old).open, i) {
				n++
			}
		}
		if n > 0 {
			out[id.platform+", "+id.position] = n
		}
	}
	return out
}

func openGaps(o output) int {
	n := 0
	for _, f := range o.findings {
		if f.Code == "coverage-gap" && f.Accepted == nil {
			n++
		}
	}
	return n
}
