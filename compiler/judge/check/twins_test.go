package check

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestTwins(t *testing.T) {
	keys := []string{"a", "b", "", "a", "c", "", "a"}
	for i := range 1000 {
		keys = append(keys, fmt.Sprint("alone ", i))
	}
	all := newTwins()
	may := func(keys []string) (out []int) {
		all.begin(len(keys))
		for _, k := range keys {
			all.add([]byte(k))
		}
		for i := range keys {
			if all.may(i) {
				out = append(out, i)
			}
		}
		return out
	}
	assert.Equal(t, []int{0, 2, 3, 5, 6}, may(keys))
	assert.Equal(t, []int{1, 2}, may([]string{"a", "z", "z"}), "what came before is forgotten")
}
