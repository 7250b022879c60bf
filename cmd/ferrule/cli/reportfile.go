package cli

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"ferrule/compiler"
	"ferrule/compiler/reason"
	"ferrule/out/view"
)

// reportable tells before any work whether a report can be written to a file: a page of ours may be
// replaced, and nothing else.
func reportable(cmd *cobra.Command, name string) error {
	if ext := strings.ToLower(filepath.Ext(name)); ext != ".html" {
		return &misuse{cmd, fmt.Sprintf("--report: %q does not end in .html", name)}
	}
	info, err := os.Stat(name)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case err != nil:
		return fmt.Errorf("--report: %s: %w", name, reason.Of(err))
	case !info.Mode().IsRegular():
		return fmt.Errorf("--report: %s is no file", name)
	}
	f, err := os.Open(name)
	if err != nil {
		return fmt.Errorf("--report: %s: %w", name, reason.Of(err))
	}
	defer f.Close() //nolint:errcheck // it was only read
	top, err := io.ReadAll(io.LimitReader(f, 1024))
	if err != nil {
		return fmt.Errorf("--report: %s: %w", name, reason.Of(err))
	}
	if !bytes.Contains(top, []byte(`content="`+view.Generator+`"`)) {
		return fmt.Errorf("--report: %s is no report of an earlier check, so it is left as it is; name another file", name)
	}
	return nil
}

// writeReport writes the report beside the file and puts it in its place, so that the file is whole at
// every moment.
func writeReport(ctx context.Context, name string, r *compiler.Result) (err error) {
	var page bytes.Buffer
	if err := view.Report(ctx, &page, r); err != nil {
		return err
	}
	f, err := os.CreateTemp(filepath.Dir(name), ".ferrule-report-*")
	if err != nil {
		return fmt.Errorf("--report: %s: %w", name, reason.Of(err))
	}
	defer func() {
		if err != nil {
			err = errors.Join(fmt.Errorf("--report: %s: %w", name, reason.Of(err)), os.Remove(f.Name()))
		}
	}()
	_, err = f.Write(page.Bytes())
	if err = errors.Join(err, f.Chmod(0o644), f.Sync(), f.Close()); err != nil {
		return err
	}
	return os.Rename(f.Name(), name)
}
