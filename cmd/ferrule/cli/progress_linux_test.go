package cli

import (
	"io"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler"
)

// screen gives the far end of a terminal, what is closed once something is written there, and a
// function that ends the writing and gives all that was written.
func screen(t *testing.T) (far *os.File, shown chan struct{}, written func() string) {
	t.Helper()
	t.Setenv("TERM", "xterm")
	near, far := terminal(t)
	shown, text := make(chan struct{}), make(chan string)
	go func() {
		first := make([]byte, 1)
		n, _ := near.Read(first)
		close(shown)
		rest, _ := io.ReadAll(near) // ends in an error once the far end is closed
		text <- string(append(first[:n], rest...))
	}()
	return far, shown, func() string {
		require.NoError(t, far.Close())
		return <-text
	}
}

func TestProgressOnATerminal(t *testing.T) {
	far, shown, written := screen(t)
	w := newWatch(far, false)
	w.stage(compiler.Stage{Name: compiler.StageCheck, Rows: 12})
	<-shown
	w.end()
	assert.Regexp(t, `^(checking what 12 fitment rows say, \d+ s\r\x1b\[K)+$`, written())
}

func TestNoProgressWhereItWouldStay(t *testing.T) {
	file, err := os.Create(t.TempDir() + "/log")
	require.NoError(t, err)
	defer file.Close()
	t.Setenv("TERM", "xterm")
	assert.Nil(t, startProgress(file), "a file")
	assert.Nil(t, startProgress(&strings.Builder{}), "no file")
	_, far := terminal(t)
	t.Setenv("TERM", "dumb")
	assert.Nil(t, startProgress(far), "a terminal that cannot erase")
}

func TestHighWater(t *testing.T) {
	bytes, known := peak()
	assert.True(t, known)
	assert.Greater(t, bytes, int64(1<<20))
	bytes, known = highWater("VmPeak:\t  999 kB\nVmHWM:\t    2048 kB\nVmRSS:\t 1 kB\n")
	assert.True(t, known)
	assert.Equal(t, int64(2<<20), bytes)
	for _, other := range []string{"", "Name:\tx\n", "Name:\tx\nVmHWM:\t12", "Name:\tx\nVmHWM:\tmany kB\n"} {
		_, known := highWater(other)
		assert.False(t, known, other)
	}
}
