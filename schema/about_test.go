package schema

import (
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
)

// longestPrompt is how many characters a spreadsheet program shows beside a list (Microsoft's
// documentation of data validation).
const longestPrompt = 255

// Every column is explained, in sentences that fit where they are shown.
func TestEveryColumnIsExplained(t *testing.T) {
	held := func(name, text string) {
		assert.NotEmpty(t, text, name)
		assert.True(t, strings.HasSuffix(text, "."), name)
		assert.LessOrEqual(t, utf8.RuneCountInString(text), longestPrompt, name)
		assert.Equal(t, strings.Join(strings.Fields(text), " "), text, name)
		assert.True(t, Explains(" "+strings.ReplaceAll(text, " ", "\r\n ")+"\n"), name)
		assert.False(t, Explains(text+" But never on left-hand drive."), name)
		assert.False(t, Explains(text[:len(text)-1]), name)
	}
	for _, kind := range Kinds() {
		for _, c := range Columns(kind) {
			held(kind+"/"+c.Name, c.About)
		}
	}
	for m := MoreChoice; m <= MoreProperty; m++ {
		held("further", m.About())
	}
	assert.False(t, Explains(""))
}
