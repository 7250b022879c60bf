//go:build unix

package cli

import (
	"io"
	"os"

	"golang.org/x/sys/unix"
)

// columns gives the width of the terminal that w is; false where it is none.
func columns(w io.Writer) (width int, terminal bool) {
	f, ok := below(w).(*os.File)
	if !ok {
		return 0, false
	}
	size, err := unix.IoctlGetWinsize(int(f.Fd()), unix.TIOCGWINSZ)
	if err != nil {
		return 0, false
	}
	return int(size.Col), true
}
