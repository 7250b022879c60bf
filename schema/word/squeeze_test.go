package word

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestSqueeze(t *testing.T) {
	for text, want := range map[string]string{
		"TB40": "tb40", "tb-40": "tb40", " TB  40 ": "tb40", "TB‑40": "tb40", "T-B-40": "tb40",
		"4-5": "4-5", "4 5": "4-5", "45": "45", "1/4 in": "1/4in", "7-A": "7a", "": "", "-": "",
	} {
		assert.Equal(t, want, Squeeze(text), "%q", text)
	}
}
