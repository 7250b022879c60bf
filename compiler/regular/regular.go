// Package regular reads files that others may have put where they are: regular files only,
// since to open a pipe may wait for ever and a device may never end, and of bounded size.
package regular

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
)

// ErrKind says that something is no file, as the end of a sentence.
var ErrKind = errors.New("it is a folder, a pipe or a device, not a file")

// Open opens a file of at most so many bytes, and gives no more of one that grows. A root
// (os.Root.FS) keeps links within its folder.
func Open(folder fs.FS, name string, most int64) (io.ReadCloser, error) {
	info, err := fs.Stat(folder, name)
	if err != nil {
		return nil, err
	}
	if !info.Mode().IsRegular() {
		return nil, ErrKind
	}
	if info.Size() > most {
		return nil, tooLarge(most)
	}
	f, err := folder.Open(name)
	if err != nil {
		return nil, err
	}
	return &file{io.LimitedReader{R: f, N: most + 1}, f, most}, nil
}

// Read gives the bytes of a file of at most so many.
func Read(folder fs.FS, name string, most int64) (data []byte, err error) {
	f, err := Open(folder, name, most)
	if err != nil {
		return nil, err
	}
	defer func() { err = errors.Join(err, f.Close()) }()
	return io.ReadAll(f)
}

func tooLarge(most int64) error {
	if most < 1<<20 {
		return fmt.Errorf("it is larger than %d bytes", most)
	}
	return fmt.Errorf("it is larger than %d MB", most>>20)
}

// file reads no further than its bound.
type file struct {
	io.LimitedReader
	io.Closer
	most int64
}

func (f *file) Read(p []byte) (int, error) {
	n, err := f.LimitedReader.Read(p)
	if f.N <= 0 {
		return n, tooLarge(f.most)
	}
	return n, err
}
