package cli

import (
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"ferrule/compiler/intake"
)

// tellBeside tells what stands beside the workbooks of paths and has no copy in dir. Pictures and stricter
// rules are part of a catalogue: whoever works on in the copies without these loses them, and what a rule
// held nobody would miss.
func tellBeside(w io.Writer, paths []string, dir string) {
	var names []string
	for _, path := range paths {
		for _, name := range beside(path) {
			if !slices.Contains(names, name) {
				names = append(names, name)
			}
		}
	}
	if len(names) > 0 {
		say(w, "not copied: %s; put what belongs to the catalogue (pictures, rules of your own) into %s as well", strings.Join(names, ", "), dir)
	}
}

// beside lists what is no workbook in a folder, or in that of a workbook, in the order of names. A folder that
// cannot be read has been told of by then.
func beside(path string) []string {
	if info, err := os.Stat(path); err == nil && !info.IsDir() {
		path = filepath.Dir(path)
	}
	entries, _ := os.ReadDir(path)
	var names []string
	for _, e := range entries {
		hidden := strings.HasPrefix(e.Name(), ".") || strings.HasPrefix(e.Name(), "~$")
		if hidden || !e.IsDir() && intake.RoleOf(e.Name()) == intake.Workbook {
			continue
		}
		names = append(names, e.Name())
	}
	return names
}
