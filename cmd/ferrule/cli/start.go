package cli

import (
	"os"
	"path/filepath"
	"slices"

	"github.com/spf13/cobra"

	"ferrule/compiler/intake"
)

// session is what is known of how the program was started.
type session struct {
	system   string // as runtime.GOOS
	terminal bool   // a terminal is in control of it: somebody has typed, or a program that has one runs it
	own      bool   // Windows: its console was opened for it and is nobody else's
	display  bool   // there is a screen with windows
	led      bool   // what it reads or writes is a file, or leads to another program
}

// clicked tells whether a person has started the program from a file manager, and so sees no
// help and types no arguments. Where that is not certain it is false: help does no harm, and a
// server that nobody has asked for would never end.
//
// On Windows a program that is clicked gets a console of its own; one that is typed shares that of its shell.
// On macOS a click opens a terminal in which the program is typed, and nothing tells the two apart: the archive has
// a file for it, desk.command. Elsewhere file managers start a program without a terminal, and nobody reads what
// it writes.
func (s session) clicked() bool {
	switch s.system {
	case "windows":
		return s.own
	case "darwin":
		return false
	}
	return s.display && !s.terminal && !s.led
}

// asked opens the desk on the folder that the program stands in, or on none, so that the page asks for
// one.
func (s *serving) asked(cmd *cobra.Command) error {
	here := stands()
	home, _ := os.UserHomeDir()
	near := slices.DeleteFunc([]string{home, here}, func(path string) bool { return path == "" })
	var paths []string
	if here != "" {
		if _, err := intake.Find([]string{here}); err == nil {
			paths = []string{here}
		}
	}
	return s.serve(cmd, paths, near)
}

// stands gives the folder that the program stands in, "" where the system does not tell.
func stands() string {
	path, err := os.Executable()
	if err != nil {
		return ""
	}
	if real, err := filepath.EvalSymlinks(path); err == nil {
		path = real
	}
	return filepath.Dir(path)
}
