package folder

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"syscall"
)

// Refusal says why a folder must not be replaced, and what to do.
type Refusal struct{ Dir, Why, Do string }

func (r *Refusal) Error() string {
	return fmt.Sprintf("%s is not replaced: it %s; %s", r.Dir, r.Why, r.Do)
}

// What to do about a folder that must not be replaced.
const (
	doName    = "name the folder to publish to"
	doLink    = "remove the link, or make the folder that it names"
	doFile    = "name a folder, or move the file away"
	doBelow   = "name a folder below it that holds nothing else"
	doOutside = "run this from outside of it, or name a folder below it that holds nothing else"
	doMove    = "move that away, or publish to another folder"
	doAllow   = "ask for the right to, or publish to another folder"
	doAgain   = "move that away, and build again"
)

// target gives the real path of the folder to replace, with links followed, or a *Refusal. It
// writes nothing.
func target(dir string, sources []string) (string, error) {
	real, err := place(dir, sources)
	if err != nil || !exists(real) {
		return real, err
	}
	why, err := ours(real)
	if err == nil && why != "" {
		err = &Refusal{dir, why, doMove}
	}
	return real, err
}

// place does so without a look at what is in the folder, which may change as long as others
// hold it.
func place(dir string, sources []string) (string, error) {
	if dir == "" {
		return "", &Refusal{`""`, "has no name", doName}
	}
	abs, err := filepath.Abs(dir)
	if err != nil {
		return "", err
	}
	real, err := filepath.EvalSymlinks(abs)
	if nothing(err) {
		return fresh(dir, abs)
	}
	if err != nil {
		return "", err
	}
	info, err := os.Stat(real)
	if nothing(err) {
		return fresh(dir, abs)
	}
	if err != nil {
		return "", err
	}
	why, do, err := forbidden(real, info, sources)
	if err == nil && why != "" {
		err = &Refusal{dir, why, do}
	}
	return real, err
}

// nothing tells whether an error says that nothing has that path.
func nothing(err error) bool {
	return errors.Is(err, fs.ErrNotExist) || errors.Is(err, syscall.ENOTDIR)
}

// fresh gives the real path of a folder that does not exist yet.
func fresh(dir, abs string) (string, error) {
	if _, err := os.Lstat(abs); err == nil {
		if real, ok := interrupted(abs); ok {
			return real, nil
		}
		return "", &Refusal{dir, "is a link that leads nowhere", doLink}
	}
	at, rest := filepath.Dir(abs), filepath.Base(abs)
	for {
		real, err := filepath.EvalSymlinks(at)
		if err == nil {
			info, err := os.Stat(real)
			if err == nil && !info.IsDir() {
				return "", &Refusal{dir, "would lie in " + at + ", which is a file", doFile}
			}
			return filepath.Join(real, rest), err
		}
		if !nothing(err) || filepath.Dir(at) == at {
			return "", err
		}
		if info, err := os.Lstat(at); err == nil && info.Mode()&fs.ModeSymlink != 0 {
			return "", &Refusal{dir, "would lie in " + at + ", a link that leads nowhere", doLink}
		}
		at, rest = filepath.Dir(at), filepath.Join(filepath.Base(at), rest)
	}
}

// interrupted gives the folder that a link leads to where a run was killed between two
// renames, so that nothing is there for a moment, or until this run puts it back.
func interrupted(link string) (real string, ok bool) {
	to, err := os.Readlink(link)
	if err != nil {
		return "", false
	}
	if !filepath.IsAbs(to) {
		to = filepath.Join(filepath.Dir(link), to)
	}
	parent, err := filepath.EvalSymlinks(filepath.Dir(to))
	if err != nil {
		return "", false
	}
	h := Held{real: filepath.Join(parent, filepath.Base(to))}
	return h.real, exists(h.near("lock"))
}
