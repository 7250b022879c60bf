package report

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// pieces notes the longest of the pieces that something is written in.
type pieces struct{ longest int }

func (p *pieces) Write(b []byte) (int, error) {
	p.longest = max(p.longest, len(b))
	return len(b), nil
}

// TestFormatsWriteFindingByFinding holds that what a format makes before it writes any of it does
// not grow with the findings.
func TestFormatsWriteFindingByFinding(t *testing.T) {
	for _, name := range Formats() {
		f, err := New(name, Options{})
		require.NoError(t, err)
		var few, many pieces
		require.NoError(t, f.Format(&few, only(several()...)))
		require.NoError(t, f.Format(&many, only(slices.Repeat(several(), 1000)...)))
		assert.LessOrEqual(t, many.longest, few.longest+1000, name)
	}
}
