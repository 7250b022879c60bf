// Package picture reads the pictures that a catalogue names, and makes of them files
// that may be published.
//
// A picture is a file beside a workbook, and nothing in it is trusted. Its name may not
// lead out of the folder; its size is bounded before it is unpacked; all of a PNG or JPEG is
// unpacked, row by row where the format allows and else within a room that all workers
// share, and what is published is drawn anew in a sane width, so that nothing
// but its look gets through (no place where a photograph was taken, for one). A WebP is
// passed on without what is not its look. An SVG is passed on as it is, which only a
// plain drawing may be, of listed elements and functions and of bounded weight: browsers run no scripts of one that is shown as an image, yet
// somebody may open it by itself.
package picture

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
)

// Format of a picture's file.
type Format uint8

const (
	PNG Format = iota
	JPEG
	WebP
	SVG
)

// Bounds of a file.
const (
	maxBytes  = 20 << 20
	maxPixels = 30_000_000
	maxPassed = 2 << 20 // bytes of a file that is not drawn anew
	maxSide   = 4096    // pixels of a WebP, which is not drawn anew
)

// Picture is a file that can be shown.
type Picture struct {
	Width, Height int    // as it is shown, in pixels
	Files         []File // narrowest first; one at least
	from          source
	sum           [32]byte // of the bytes that were looked at
	format        Format
	room          *room
	turn          int  // how a photograph is turned, see orient
	flat          bool // may be published as a JPEG
}

// File is a picture in one width, under its name below the folder of published
// pictures. The name follows from the content, so that a new picture has a new name.
type File struct {
	Name          string
	Width, Height int
}

// source is where a picture is read from.
type source struct{ folder, name string }

// errSize says so as the end of a sentence.
var errSize = fmt.Errorf("it is larger than %d MB", maxBytes>>20)

// read gives the bytes of a file. A link that leads out of the folder is an error.
func (s source) read() (data []byte, err error) {
	root, err := os.OpenRoot(s.folder)
	if err != nil {
		return nil, err
	}
	defer func() { err = errors.Join(err, root.Close()) }()
	info, err := root.Stat(s.name)
	if err != nil {
		return nil, err
	}
	if !info.Mode().IsRegular() { // to open a pipe might wait for ever
		return nil, fs.ErrNotExist
	}
	if info.Size() > maxBytes {
		return nil, errSize
	}
	f, err := root.Open(s.name)
	if err != nil {
		return nil, err
	}
	defer func() { err = errors.Join(err, f.Close()) }()
	data, err = io.ReadAll(io.LimitReader(f, maxBytes+1))
	if err == nil && len(data) > maxBytes {
		return nil, errSize
	}
	return data, err
}
