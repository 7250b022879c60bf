package main

import (
	"archive/tar"
	"archive/zip"
	"compress/gzip"
	"io"
	"io/fs"
	"path"
	"slices"
	"strings"
	"time"
)

// file is what an archive holds under a slash path below its folder.
type file struct {
	name string
	data []byte
	run  bool // whether it is a program
}

func (f file) mode() fs.FileMode {
	if f.run {
		return 0o755
	}
	return 0o644
}

// packer writes an archive whose bytes follow from the files alone, in any order.
type packer func(w io.Writer, folder string, files []file) error

// when is the time of every file: a fixed one that zip can hold (from 1980 on).
func when() time.Time { return time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC) }

func sorted(files []file) []file {
	files = slices.Clone(files)
	slices.SortFunc(files, func(a, b file) int { return strings.Compare(a.name, b.name) })
	return files
}

func packZip(w io.Writer, folder string, files []file) error {
	out := zip.NewWriter(w)
	for _, f := range sorted(files) {
		h := &zip.FileHeader{Name: path.Join(folder, f.name), Method: zip.Deflate, Modified: when()}
		h.SetMode(f.mode())
		to, err := out.CreateHeader(h)
		if err != nil {
			return err
		}
		if _, err := to.Write(f.data); err != nil {
			return err
		}
	}
	return out.Close()
}

func packTar(w io.Writer, folder string, files []file) error {
	packed, err := gzip.NewWriterLevel(w, gzip.BestCompression)
	if err != nil {
		return err
	}
	out := tar.NewWriter(packed)
	for _, f := range sorted(files) {
		h := &tar.Header{Typeflag: tar.TypeReg, Name: path.Join(folder, f.name), Size: int64(len(f.data)),
			Mode: int64(f.mode()), ModTime: when(), Format: tar.FormatUSTAR}
		if err := out.WriteHeader(h); err != nil {
			return err
		}
		if _, err := out.Write(f.data); err != nil {
			return err
		}
	}
	if err := out.Close(); err != nil {
		return err
	}
	return packed.Close()
}
