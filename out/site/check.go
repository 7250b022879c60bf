package site

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// Refusal says why a folder must not be replaced.
type Refusal struct{ Dir, Why string }

func (r *Refusal) Error() string { return fmt.Sprintf("%s is not replaced: it %s", r.Dir, r.Why) }

// Check tells whether dir may become the output of a build of the sources (folders
// and files); a *Refusal says why not. It writes nothing.
func Check(dir string, sources []string) error {
	_, err := target(dir, sources)
	return err
}

// target gives the real path of the folder to replace, with links followed.
func target(dir string, sources []string) (string, error) {
	if dir == "" {
		return "", &Refusal{`""`, "has no name"}
	}
	abs, err := filepath.Abs(dir)
	if err != nil {
		return "", err
	}
	real, err := filepath.EvalSymlinks(abs)
	if errors.Is(err, fs.ErrNotExist) {
		return fresh(dir, abs)
	}
	if err != nil {
		return "", err
	}
	info, err := os.Stat(real)
	if err != nil {
		return "", err
	}
	why, err := forbidden(real, info, sources)
	if err == nil && why != "" {
		err = &Refusal{dir, why}
	}
	return real, err
}

// fresh gives the real path of a folder that does not exist yet.
func fresh(dir, abs string) (string, error) {
	if _, err := os.Lstat(abs); err == nil {
		return "", &Refusal{dir, "is a link that leads nowhere"}
	}
	at, rest := filepath.Dir(abs), filepath.Base(abs)
	for {
		real, err := filepath.EvalSymlinks(at)
		if err == nil {
			info, err := os.Stat(real)
			if err == nil && !info.IsDir() {
				return "", &Refusal{dir, "would lie in " + at + ", which is a file"}
			}
			return filepath.Join(real, rest), err
		}
		if !errors.Is(err, fs.ErrNotExist) || filepath.Dir(at) == at {
			return "", err
		}
		if _, err := os.Lstat(at); err == nil {
			return "", &Refusal{dir, "would lie in " + at + ", a link that leads nowhere"}
		}
		at, rest = filepath.Dir(at), filepath.Join(filepath.Base(at), rest)
	}
}

// forbidden says why an existing path must not be replaced, "" where it may.
func forbidden(real string, info fs.FileInfo, sources []string) (why string, err error) {
	if !info.IsDir() {
		return "is a file and not a folder", nil
	}
	if filepath.Dir(real) == real {
		return "is the root of the file system", nil
	}
	if home, err := os.UserHomeDir(); err == nil && home != "" && within(info, home) {
		return "is the home folder or lies above it", nil
	}
	for _, s := range sources {
		files, err := sourceFiles(s)
		if err != nil {
			return "", err
		}
		for _, f := range files {
			if within(info, f) {
				return fmt.Sprintf("holds the source %s", s), nil
			}
		}
	}
	return ours(real)
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
		case ".xlsx", ".xlsm":
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
