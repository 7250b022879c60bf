package guide_test

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/out/guide"
)

// TestOtherNamesStandInThePage holds that the finder is given what platforms, traits and values
// are called besides, and of values of one platform no other's.
func TestOtherNamesStandInThePage(t *testing.T) {
	pages := demoSample(t).pages(t, guide.Options{})
	also := func(page string) map[string][]string {
		find := byID(t, parse(t, pages[page]), "find")
		var out map[string][]string
		require.NoError(t, json.Unmarshal([]byte(attr(find, "data-also")), &out), page)
		return out
	}
	names := func(m map[string][]string) (out []string) {
		for _, n := range m {
			out = append(out, n...)
		}
		return out
	}
	h7, l4 := also("platforms/h7.html"), also("platforms/l4.html")
	assert.Equal(t, []string{"TH7", "Tarnholt 7"}, h7[""])
	assert.Equal(t, []string{"Lark 4"}, l4[""])
	assert.Contains(t, names(h7), "Rear springs")
	assert.Contains(t, names(l4), "air")
	assert.NotContains(t, names(h7), "air", "so called on L4 and N5")
	assert.NotContains(t, names(l4), "7500 kg", "no L4 has that value")
}
