// Package told gives all that a run tells, so that tests can hold two runs against each other. For
// tests only.
package told

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/require"

	"ferrule/compiler"
	"ferrule/out/report"
)

// By gives all that a run tells, as JSON.
func By(t testing.TB, res *compiler.Result) string {
	t.Helper()
	var out bytes.Buffer
	f, err := report.New("json", report.Options{})
	require.NoError(t, err)
	require.NoError(t, f.Format(&out, res))
	return out.String()
}
