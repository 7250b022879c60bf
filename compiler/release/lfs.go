package release

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"

	"ferrule/compiler/regular"
)

// longestPointer is the size in bytes up to which a file may be a pointer of Git LFS, and
// pointer is its form (from memory: the specification in the documentation of Git LFS, which
// keeps a file under lfs/objects of the repository by the hash of what is in it).
const longestPointer = 1024

var pointer = regexp.MustCompile(`\Aversion https://git-lfs\.github\.com/spec/v1\n(?:[a-z0-9.-]+ .*\n)*oid sha256:([0-9a-f]{64})\nsize ([0-9]{1,18})\n\z`)

// follow puts into a file what it points to, where it is a pointer of Git LFS. That is read
// from where Git LFS keeps it, and is what the pointer says or an error; nothing is fetched.
func (g *git) follow(f *os.File, name string) (err error) {
	text := make([]byte, longestPointer+1)
	n, err := f.ReadAt(text, 0)
	if err != nil && err != io.EOF {
		return err
	}
	m := pointer.FindStringSubmatch(string(text[:n]))
	if m == nil {
		return nil
	}
	hash := m[1]
	size, err := strconv.ParseInt(m[2], 10, 64)
	if err == nil {
		err = g.fits(name, size)
	}
	if err != nil {
		return err
	}
	kept, err := g.kept(hash, size)
	if err != nil {
		return fmt.Errorf("%s cannot be read: Git LFS keeps %s elsewhere and it is not here (fetch it with: git lfs fetch origin %s)", g.name, name, g.rev)
	}
	defer func() { err = errors.Join(err, kept.Close()) }()
	if err := f.Truncate(0); err != nil {
		return err
	}
	if _, err := f.Seek(0, io.SeekStart); err != nil {
		return err
	}
	sum := sha256.New()
	copied, err := io.Copy(io.MultiWriter(f, sum), kept)
	if err != nil || copied != size || hex.EncodeToString(sum.Sum(nil)) != hash {
		return fmt.Errorf("%s cannot be read: what Git LFS keeps of %s is damaged", g.name, name)
	}
	return nil
}

// kept opens what Git LFS keeps under a hash.
func (g *git) kept(hash string, size int64) (io.ReadCloser, error) {
	common, err := g.run("rev-parse", "--git-common-dir")
	if err != nil {
		return nil, err
	}
	objects := filepath.Join(strings.TrimSuffix(string(common), "\n"), "lfs", "objects")
	return regular.Open(os.DirFS(objects), hash[:2]+"/"+hash[2:4]+"/"+hash, size)
}
