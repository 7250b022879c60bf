package cli

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"ferrule/compiler/intake"
	"ferrule/out/aid"
	"ferrule/out/markup"
	"ferrule/out/original"
)

// starting holds the flags of new.
type starting struct {
	from []string
	dir  string
}

func newCommand() *cobra.Command {
	var s starting
	cmd := &cobra.Command{
		Use:   "new (DIR | --from PATH -o DIR)",
		Short: "Write a catalogue to begin with, or make one easier to fill in",
		Long: "Writes a starter catalogue into DIR: every sheet, with example rows to overwrite, lists to pick from,\n" +
			"and a note on each heading that explains the column.\n\n" +
			"With --from it writes copies of the workbooks of a catalogue that is there already, and adds to them what\n" +
			"they lack: lists to pick from, which grow with the sheet that declares their names, notes on headings,\n" +
			"headers that stay in sight, filters, widths of columns and a page set-up for print. No list, note, filter\n" +
			"or set-up that somebody has made is changed, nor is any cell; sheets whose name begins with _, and those that\n" +
			"Layouts says how to read, are left alone. What was added to each sheet is told, and what was not and why.\n" +
			"Pictures and rules of your own (NAME.schema.json) are not copied: what stands beside the workbooks is told.\n\n" +
			"The workbooks are only read, and each copy is read back before it is written. DIR must not hold them, and is\n" +
			"replaced as a whole, and only if it is new, empty or an earlier output.\n\n" +
			"The exit status is 1 where a workbook has no copy, which is told.",
		Example: "  ferrule new catalogue\n  ferrule new --from catalogue -o easier",
		Args: func(cmd *cobra.Command, args []string) error {
			if len(s.from) > 0 || s.dir != "" {
				return s.check(cmd, args)
			}
			return both(atLeast(1, "a folder to write to"), atMost(1, "one folder"))(cmd, args)
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(s.from) > 0 {
				return s.run(cmd)
			}
			return starter(cmd, args[0])
		},
	}
	cmd.Flags().StringArrayVar(&s.from, "from", nil, "a folder or workbook to copy (`path`), with what it lacks")
	cmd.Flags().StringVarP(&s.dir, "output", "o", "", "the `folder` to write copies to")
	return cmd
}

func (s *starting) check(cmd *cobra.Command, args []string) error {
	switch {
	case len(s.from) == 0:
		return &misuse{cmd, "-o goes with --from PATH; a starter is written by ferrule new DIR"}
	case s.dir == "":
		return &misuse{cmd, "new --from needs a folder to write copies to: -o DIR"}
	case len(args) > 0:
		return &misuse{cmd, fmt.Sprintf("new takes either a folder for a starter or --from PATH, not %q as well", args[0])}
	}
	return nil
}

func (s *starting) run(cmd *cobra.Command) error {
	books, err := original.Note(s.from)
	if err != nil {
		return err
	}
	src, err := intake.Find(s.from)
	if err != nil {
		return err
	}
	made := aid.Copies(src, compiled(books))
	stderr := cmd.ErrOrStderr()
	var copies []copied
	for i := range made {
		b := &made[i]
		if b.Err != nil {
			say(stderr, "%s is not copied: %s", b.Name, b.Err.Error())
			continue
		}
		name := books.File(b.Name)
		copies = append(copies, copied{name, b.Bytes})
		tellAided(stderr, filepath.Join(s.dir, name), b)
	}
	if len(copies) > 0 {
		if err := place(cmd.Context(), cmd, s.dir, s.from, copies); err != nil {
			return err
		}
		say(stderr, "wrote %s to %s", count(len(copies), "copy", "copies"), s.dir)
		tellBeside(stderr, s.from, s.dir)
		say(stderr, "next: ferrule check %s", s.dir)
	}
	if len(copies) < len(made) {
		return exit(findings)
	}
	return nil
}

// tellAided tells what was added to a copy and what was not.
func tellAided(w io.Writer, path string, b *aid.Book) {
	say(w, "%s", path)
	if b.Signed {
		say(w, "  it is signed, and the signature does not hold for the copy")
	}
	for _, s := range b.Sheets {
		var parts []string
		if len(s.Added) > 0 {
			parts = append(parts, "added "+strings.Join(s.Added, ", "))
		}
		if len(s.Kept) > 0 {
			parts = append(parts, "there already: "+strings.Join(s.Kept, ", "))
		}
		if s.Left != "" {
			parts = append(parts, "left alone: "+s.Left)
		}
		say(w, "  %s: %s", s.Name, strings.Join(parts, "; "))
	}
}

// starter writes the catalogue to begin with.
func starter(cmd *cobra.Command, dir string) error {
	books := markup.Starter()
	if err := start(dir, books); err != nil {
		return err
	}
	for _, b := range books {
		say(cmd.ErrOrStderr(), "wrote %s", filepath.Join(dir, b.Name))
	}
	say(cmd.ErrOrStderr(), "next: ferrule check %s", dir)
	return nil
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
