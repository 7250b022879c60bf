package compare

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestReplaceName(t *testing.T) {
	for _, c := range [][4]string{
		{"on H7: H7 and H7.", "H7", "H8", "on H8: H8 and H8."},
		{"H77, XH7, H7-2 and H7", "H7", "H8", "H77, XH7, H7-2 and H8"},
		{"HH", "H", "X", "HH"},
		{"\"HD-20\" at Front damper", "HD-20", "HD-21", "\"HD-21\" at Front damper"},
		{"ÄH7 H7ß", "H7", "H8", "ÄH7 H7ß"},
		{"H7", "H7", "H7 H7", "H7 H7"},
		{"nothing", "", "x", "nothing"},
	} {
		assert.Equal(t, c[3], replaceName(c[0], c[1], c[2]), c[0])
	}
}
