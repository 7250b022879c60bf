package intake

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"ferrule/compiler/finding"
	"ferrule/compiler/intake/table"
)

// TestFaultsAreGraded holds that each kind of fault has its code, and is told as gravely as
// the reference says.
func TestFaultsAreGraded(t *testing.T) {
	told := map[finding.Code]string{}
	for w := table.NoHeader; w <= table.Hidden; w++ {
		code, severity := graded(w)
		assert.NotContains(t, told, code)
		told[code] = severity.String()
	}
	said := map[finding.Code]string{}
	for _, k := range tableKinds() {
		said[k.Code] = k.Severity
	}
	assert.Equal(t, said, told)
	assert.Panics(t, func() { graded(0) })
}
