package enumerate

import (
	"bytes"
	"context"
	"fmt"
	"path/filepath"
	"testing"

	"ferrule/cmd/ferrule/cli"

	"github.com/stretchr/testify/require"
)

// compile has a folder built, as `ferrule build DIR -o OUT --draft --today
// 2027-03-01` does, and reads what was written.
func compile(t testing.TB, dir string) output {
	t.Helper()
	out, err := build(dir, filepath.Join(t.TempDir(), "out"))
	require.NoError(t, err)
	return out
}

// build is the only place where the program is called.
func build(dir, to string) (output, error) {
	var stdout, stderr bytes.Buffer
	args := []string{"build", dir, "-o", to, "--draft", "--today", "2027-03-01"}
	if status := cli.Run(context.Background(), args, &stdout, &stderr); status != 0 {
		return output{}, fmt.Errorf("build ended with status %d\n%s%s", status, stdout.String(), stderr.String())
	}
	return load(to)
}
