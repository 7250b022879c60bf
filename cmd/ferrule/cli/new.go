package cli

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"github.com/spf13/cobra"

	"ferrule/out/aid"
	"ferrule/out/markup"
)

func newCommand() *cobra.Command {
	return &cobra.Command{
		Use:     "new DIR",
		Short:   "Write a catalogue to begin with",
		Long:    "Writes a starter catalogue into DIR: every sheet, with example rows to overwrite and lists to pick from.",
		Example: "  ferrule new catalogue",
		Args:    both(atLeast(1, "a folder to write to"), atMost(1, "one folder")),
		RunE: func(cmd *cobra.Command, args []string) error {
			books := markup.Starter()
			if err := start(args[0], books); err != nil {
				return err
			}
			for _, b := range books {
				say(cmd.ErrOrStderr(), "wrote %s", filepath.Join(args[0], b.Name))
			}
			say(cmd.ErrOrStderr(), "next: ferrule check %s", args[0])
			return nil
		},
	}
}

// start writes the books into a folder that is new or empty. Where it fails it takes
// away what it wrote.
func start(dir string, books []markup.Book) error {
	entries, err := os.ReadDir(dir)
	isNew := errors.Is(err, fs.ErrNotExist)
	if err != nil && !isNew {
		return err
	}
	if len(entries) > 0 {
		return fmt.Errorf("%s is not empty (it holds %s); name a new folder", dir, entries[0].Name())
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	err = aid.Write(dir, books)
	if err == nil {
		return nil
	}
	for _, b := range books {
		os.Remove(filepath.Join(dir, b.Name))
	}
	if isNew {
		os.Remove(dir)
	}
	return fmt.Errorf("the starter could not be written: %w", err)
}
