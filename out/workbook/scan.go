package workbook

import (
	"bufio"
	"errors"
	"io"

	"github.com/klauspost/compress/flate"
	"github.com/klauspost/compress/zip"
)

// Scan is the reference F of benchmarks: it inflates the parts of a workbook on one
// goroutine and counts cells byte by byte.
func Scan(name string) (cells int, err error) {
	z, err := zip.OpenReader(name)
	if err != nil {
		return 0, err
	}
	defer func() { err = errors.Join(err, z.Close()) }()
	buf := make([]byte, 1<<16)
	for _, f := range z.File {
		raw, err := f.OpenRaw()
		if err != nil {
			return 0, err
		}
		n, err := scan(flate.NewReader(bufio.NewReaderSize(raw, 1<<15)), buf)
		if err != nil {
			return 0, err
		}
		cells += n
	}
	return cells, nil
}

// scan counts the places where a cell begins.
func scan(r io.Reader, buf []byte) (cells int, err error) {
	last := byte(0)
	for {
		n, err := r.Read(buf)
		for _, c := range buf[:n] {
			if c == 'c' && last == '<' {
				cells++
			}
			last = c
		}
		if err == io.EOF {
			return cells, nil
		}
		if err != nil {
			return 0, err
		}
	}
}
