package finding_test

import (
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"

	"ferrule/compiler/finding"
)

func TestShort(t *testing.T) {
	plain := `no part is called "HD-2O"; did you mean HD-20?`
	assert.Equal(t, plain, finding.Short(plain))
	assert.Equal(t, strings.Repeat("é", 900), finding.Short(strings.Repeat("é", 900)))

	long := finding.Short(`no part is called "` + strings.Repeat("é", 10_000) + `"; did you mean HD-20?`)
	assert.Equal(t, 803, utf8.RuneCountInString(long))
	assert.True(t, strings.HasPrefix(long, `no part is called "é`))
	assert.True(t, strings.HasSuffix(long, `é"; did you mean HD-20?`))
	assert.Contains(t, long, "é … é")
}
