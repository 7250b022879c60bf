package main

import (
	"bytes"
	"context"
	"crypto/sha256"
	"fmt"
	"io"
	"os"
	"strings"

	"ferrule/out/folder"
)

// release builds the targets from the source in root and replaces dir by their archives.
func release(ctx context.Context, root, dir string, all []target) error {
	held, err := folder.Hold(ctx, dir, []string{root}, func() {
		fmt.Fprintln(os.Stderr, "release: waiting for another run to end")
	})
	if err != nil {
		return err
	}
	defer held.Close()
	var sums strings.Builder
	for _, t := range all {
		data, err := archive(ctx, root, t)
		if err != nil {
			return fmt.Errorf("%s: %w", t.archive(), err)
		}
		if err := held.File(t.archive(), writer(data)); err != nil {
			return err
		}
		fmt.Fprintf(&sums, "%x  %s\n", sha256.Sum256(data), t.archive())
	}
	if err := held.File("SHA256SUMS", writer([]byte(sums.String()))); err != nil {
		return err
	}
	return held.Put(ctx)
}

func writer(data []byte) func(io.Writer) error {
	return func(w io.Writer) error {
		_, err := w.Write(data)
		return err
	}
}

// archive gives the bytes of one target's archive.
func archive(ctx context.Context, root string, t target) ([]byte, error) {
	program, err := build(ctx, root, t)
	if err != nil {
		return nil, err
	}
	notices, err := licences(ctx, root, program)
	if err != nil {
		return nil, err
	}
	files, err := documents(root)
	if err != nil {
		return nil, err
	}
	files = append(files, t.starter()...)
	files = append(files,
		file{name: t.program(), data: program, run: true},
		file{name: "LICENSES.txt", data: notices})
	var out bytes.Buffer
	if err := t.pack()(&out, t.folder(), files); err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}
