//go:build unix

package cli

import (
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The desk opens by itself only where a person has clicked; everybody else gets help, and the program ends.
func TestClicked(t *testing.T) {
	for name, c := range map[string]struct {
		of   session
		want bool
	}{
		"a click in a file manager":              {session{system: "linux", display: true}, true},
		"typed":                                  {session{system: "linux", display: true, terminal: true}, false},
		"typed, with its output thrown away":     {session{system: "linux", display: true, terminal: true}, false},
		"run by a program that reads its output": {session{system: "linux", display: true, led: true}, false},
		"on a server, by a timer":                {session{system: "linux"}, false},
		"on a server, in a pipe":                 {session{system: "linux", led: true}, false},
		"on another Unix":                        {session{system: "freebsd", display: true}, true},
		"Windows, from the explorer":             {session{system: "windows", own: true}, true},
		"Windows, typed":                         {session{system: "windows"}, false},
		"macOS, where a click is typed":          {session{system: "darwin", terminal: true}, false},
		"macOS, by another program":              {session{system: "darwin", display: true}, false},
		"unknown":                                {session{terminal: true}, false},
	} {
		assert.Equal(t, c.want, c.of.clicked(), name)
	}
}

// Streams to files and other programs are told from those to nobody.
func TestLed(t *testing.T) {
	r, w, err := os.Pipe()
	require.NoError(t, err)
	defer r.Close() //nolint:errcheck // nothing was written
	defer w.Close() //nolint:errcheck // nothing was written
	file, err := os.CreateTemp(t.TempDir(), "")
	require.NoError(t, err)
	nobody, err := os.Open(os.DevNull)
	require.NoError(t, err)
	defer nobody.Close() //nolint:errcheck // nothing was written
	assert.True(t, led(r))
	assert.True(t, led(w))
	assert.True(t, led(file))
	assert.False(t, led(nobody))
	require.NoError(t, file.Close())
	assert.False(t, led(file))
}
