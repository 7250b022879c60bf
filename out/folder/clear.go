package folder

import (
	"errors"
	"io/fs"
	"path/filepath"
)

// clear removes an earlier output: the files that its marker lists, then the folders, and the
// marker at last, so that what a killed run leaves of it is known as well. Anything else stays,
// even where it comes only now, and is an error.
func (h *Held) clear(dir string) error {
	why, err := ours(dir)
	if err != nil {
		return err
	}
	if why != "" {
		return &Refusal{dir, why, doAgain}
	}
	files, folders, err := contents(dir)
	if err != nil {
		return err
	}
	for _, path := range files {
		if err := h.disk.remove(path); err != nil {
			return err
		}
	}
	for i := len(folders) - 1; i > 0; i-- {
		if err := h.disk.remove(folders[i]); err != nil {
			return err
		}
	}
	if err := h.disk.remove(filepath.Join(dir, markerName)); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	return h.disk.remove(dir)
}

// contents gives what a build may remove of an earlier output: files other than the marker,
// and the folders, each behind the one that it is in.
func contents(dir string) (files, folders []string, err error) {
	listed, err := listing(dir)
	if err != nil {
		return nil, nil, err
	}
	err = filepath.WalkDir(dir, func(path string, e fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		name, err := filepath.Rel(dir, path)
		switch name = filepath.ToSlash(name); {
		case e.IsDir():
			folders = append(folders, path)
		case name != markerName && (listed[name] || droppings(e)):
			files = append(files, path)
		}
		return err
	})
	return files, folders, err
}
