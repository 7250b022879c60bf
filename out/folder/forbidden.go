package folder

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// forbidden says why an existing path must not be replaced, whatever is in it, and what to do;
// "" where it may.
func forbidden(real string, info fs.FileInfo, sources []string) (why, do string, err error) {
	switch {
	case !info.IsDir():
		return "is a file and not a folder", doFile, nil
	case filepath.Dir(real) == real:
		return "is the root of the file system", doBelow, nil
	}
	if home, err := os.UserHomeDir(); err == nil && home != "" && within(info, home) {
		return "is the home folder or lies above it", doBelow, nil
	}
	for _, s := range sources {
		files, err := sourceFiles(s)
		if err != nil {
			return "", "", err
		}
		for _, f := range files {
			if within(info, f) {
				return "holds the source " + s, doBelow, nil
			}
		}
	}
	if here, err := os.Getwd(); err == nil && within(info, here) {
		return "is the folder that this runs in, or lies above it", doOutside, nil
	}
	if mounted(real) {
		return "is a mount point, which no folder can take the place of", doBelow, nil
	}
	if !writable(real) {
		return "may not be changed by whoever runs this", doAllow, nil
	}
	return "", "", nil
}

// sourceFiles gives a source with all workbooks in it, since one of them may be a
// link to elsewhere.
func sourceFiles(source string) ([]string, error) {
	info, err := os.Stat(source)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil // reading it will say so
	}
	if err != nil || !info.IsDir() {
		return []string{source}, err
	}
	files := []string{source}
	entries, err := os.ReadDir(source)
	for _, e := range entries {
		switch strings.ToLower(filepath.Ext(e.Name())) {
		case ".xlsx", ".xlsm", ".csv", ".tsv":
			files = append(files, filepath.Join(source, e.Name()))
		}
	}
	return files, err
}

// within tells whether path is the folder or lies in it, however it is spelt: links
// are followed, and folders compared by identity, so that case makes no difference
// where the file system makes none.
func within(folder fs.FileInfo, path string) bool {
	abs, err := filepath.Abs(path)
	if err != nil {
		return false
	}
	ways := []string{abs}
	if real, err := filepath.EvalSymlinks(abs); err == nil {
		ways = append(ways, real)
	}
	for _, at := range ways {
		for {
			if info, err := os.Stat(at); err == nil && os.SameFile(info, folder) {
				return true
			}
			if filepath.Dir(at) == at {
				break
			}
			at = filepath.Dir(at)
		}
	}
	return false
}
