package cli

import (
	"context"
	"errors"
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"ferrule/out/folder"
	"ferrule/out/original"
)

// compiled gives the bytes of workbooks as they were compiled, and says of those that are others now
// what to do.
func compiled(books *original.Books) func(name string) ([]byte, error) {
	return func(name string) ([]byte, error) {
		data, err := books.Bytes(name)
		if errors.Is(err, original.ErrChanged) {
			return nil, fmt.Errorf("%w; run this again", err)
		}
		return data, err
	}
}

// copied is a workbook that is written.
type copied struct {
	name string // of the file
	data []byte
}

// place writes copies into a folder, which is replaced as a whole.
func place(ctx context.Context, cmd *cobra.Command, dir string, sources []string, copies []copied) (err error) {
	waiting := func() {
		say(cmd.ErrOrStderr(), "another run writes to %s; waiting until it has ended", dir)
	}
	to, err := folder.Hold(ctx, dir, sources, waiting)
	if err != nil {
		return err
	}
	defer func() { err = first(err, to.Close()) }()
	for _, c := range copies {
		err := to.File(c.name, func(w io.Writer) error { _, err := w.Write(c.data); return err })
		if err != nil {
			return err
		}
	}
	return to.Put(ctx)
}
