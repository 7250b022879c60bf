//go:build unix

package cli

import (
	"io/fs"
	"os"
	"runtime"
)

// started looks at how the program was started.
func started() session {
	s := session{system: runtime.GOOS, display: os.Getenv("DISPLAY") != "" || os.Getenv("WAYLAND_DISPLAY") != ""}
	if tty, err := os.OpenFile("/dev/tty", os.O_RDWR, 0); err == nil {
		s.terminal = true
		tty.Close() //nolint:errcheck // nothing was written
	}
	for _, f := range []*os.File{os.Stdin, os.Stdout, os.Stderr} {
		s.led = s.led || led(f)
	}
	return s
}

// led tells whether a stream is a file, or leads to another program that has asked for it. What file managers
// give to programs is nothing (/dev/null) or a socket of the system's log.
func led(f *os.File) bool {
	info, err := f.Stat()
	if err != nil {
		return false // it is closed
	}
	return info.Mode().IsRegular() || info.Mode()&fs.ModeNamedPipe != 0
}
