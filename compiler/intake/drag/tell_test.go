package drag

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestInchesAreQuoted holds that an inch sign in a cell gets no backslash in a sentence.
func TestInchesAreQuoted(t *testing.T) {
	r := &Run{Column: "Travel", Texts: []string{`5'2"`, `5'3"`, `5'4"`}, Told: true}
	f := (&rows{}).tell(r, nil)
	assert.Equal(t, `Travel climbs by one from “5'2"” to “5'4"” over 3 rows, as dragging a cell makes it`, f.Message)
	assert.NotContains(t, f.Constant+f.Fix, `\`)
}
