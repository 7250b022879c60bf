package cli

import (
	"fmt"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/sys/unix"
)

// terminal opens a pseudo-terminal of 100 columns. The far end is what a program in a
// terminal window has; what it writes can be read from the near end.
func terminal(t *testing.T) (near, far *os.File) {
	t.Helper()
	near, err := os.OpenFile("/dev/ptmx", os.O_RDWR|unix.O_NOCTTY, 0)
	require.NoError(t, err)
	t.Cleanup(func() { near.Close() })
	fd := int(near.Fd())
	require.NoError(t, unix.IoctlSetPointerInt(fd, unix.TIOCSPTLCK, 0))
	n, err := unix.IoctlGetInt(fd, unix.TIOCGPTN)
	require.NoError(t, err)
	far, err = os.OpenFile(fmt.Sprintf("/dev/pts/%d", n), os.O_RDWR|unix.O_NOCTTY, 0)
	require.NoError(t, err)
	t.Cleanup(func() { far.Close() })
	require.NoError(t, unix.IoctlSetWinsize(int(far.Fd()), unix.TIOCSWINSZ, &unix.Winsize{Col: 100, Row: 30}))
	return near, far
}

func TestTerminal(t *testing.T) {
	_, f := terminal(t)
	width, is := columns(f)
	assert.True(t, is)
	assert.Equal(t, 100, width)
	t.Setenv("TERM", "xterm")
	for value, want := range map[string]bool{"": true, "1": false, "0": false} { // no-color.org: any value but none
		t.Setenv("NO_COLOR", value)
		assert.Equal(t, want, colored(f), "NO_COLOR=%q", value)
	}
	t.Setenv("NO_COLOR", "")
	t.Setenv("TERM", "dumb")
	assert.False(t, colored(f))
}
