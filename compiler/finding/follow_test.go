package finding

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestFollowing(t *testing.T) {
	f := &Finding{}
	assert.Empty(t, f.Following())
	f.Owe("part-unused", 1)
	assert.Equal(t, "because of this one further finding is not listed: part-unused", f.Following())
	f.Owe("coverage-gap", 11)
	f.Owe("part-unused", 3)
	f.Owe("coverage-gap", 1)
	assert.Equal(t, []Follow{{"coverage-gap", 12}, {"part-unused", 4}}, f.Follows, "by code, whatever came first")
	assert.Equal(t, "because of this 16 further findings are not listed: 12 coverage-gap, 4 part-unused", f.Following())
}
