package folder

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// markerName is the file that makes a folder an earlier output of ours. It lists
// every file, so that one that somebody has put there since is not lost.
const markerName = ".ferrule-output"

const markerHead = "written by ferrule; this folder is replaced as a whole at the next build"

// mark writes the marker.
func (h *Held) mark() error {
	names := slices.Sorted(slices.Values(h.names))
	text := markerHead + "\n" + strings.Join(names, "\n") + "\n"
	_, err := h.create(filepath.Join(h.fresh, markerName), func(out io.Writer) error {
		_, err := io.WriteString(out, text)
		return err
	})
	return err
}

// ours tells whether a folder may be replaced: it is empty, or holds what its marker
// lists and nothing else. If not, why is a sentence's end.
func ours(dir string) (why string, err error) {
	listed, err := listing(dir)
	if err != nil {
		return "", err
	}
	err = filepath.WalkDir(dir, func(path string, e fs.DirEntry, err error) error {
		if err != nil || path == dir {
			return err
		}
		name, err := filepath.Rel(dir, path)
		if err != nil {
			return err
		}
		name = filepath.ToSlash(name)
		switch {
		case e.IsDir() && !writable(path):
			why = fmt.Sprintf("holds %s, from which whoever runs this may remove nothing", name)
		case e.IsDir() && mounted(path):
			why = fmt.Sprintf("holds %s, which is a mount point", name)
		case listed == nil && !droppings(e):
			why = fmt.Sprintf("holds %s and is not an earlier output", name)
		case e.IsDir() || droppings(e) || listed[name]:
			return nil
		default:
			why = fmt.Sprintf("holds %s, which was not written by the build", name)
		}
		return filepath.SkipAll
	})
	return why, err
}

// listing gives the files that the marker lists; nil where there is none.
func listing(dir string) (map[string]bool, error) {
	path := filepath.Join(dir, markerName)
	info, err := os.Lstat(path)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	if !info.Mode().IsRegular() {
		return nil, nil
	}
	text, err := os.ReadFile(path)
	if err != nil {
		return nil, err
	}
	lines := strings.Split(strings.TrimSuffix(string(text), "\n"), "\n")
	if lines[0] != markerHead {
		return nil, nil
	}
	listed := map[string]bool{markerName: true}
	for _, l := range lines[1:] {
		listed[l] = true
	}
	return listed, nil
}

// droppings tells whether the entry is a file that desktops leave in any folder that
// they show.
func droppings(e fs.DirEntry) bool {
	return !e.IsDir() && (e.Name() == ".DS_Store" || e.Name() == "Thumbs.db" || e.Name() == "desktop.ini")
}
