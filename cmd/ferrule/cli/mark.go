package cli

import (
	"fmt"
	"io"
	"path/filepath"

	"github.com/spf13/cobra"

	"ferrule/compiler"
	"ferrule/out/mark"
	"ferrule/out/original"
)

// marking holds the flags of mark.
type marking struct {
	dir, today string
}

func markCommand() *cobra.Command {
	var m marking
	cmd := &cobra.Command{
		Use:   "mark PATH… -o DIR",
		Short: "Write copies of workbooks in which findings are marked",
		Long: "Checks a catalogue as check does and writes into DIR a copy of each workbook in which something\n" +
			"was found: its cells are filled by severity and have notes that say what is wrong and what to write,\n" +
			"and a sheet Findings at the end lists all with links. All else in a copy is as it was, whatever program\n" +
			"wrote it: charts, pivot tables, controls, macros. A note that a cell has stays, above ours. Each copy\n" +
			"is read back before it is written, and not written where anything but the marks differs.\n\n" +
			"The workbooks are only read. DIR must not hold them, and is replaced as a whole, and only if it is new,\n" +
			"empty or an earlier output: what was changed in copies there is lost. Marks are left alone when a\n" +
			"copy is checked.\n\n" +
			"The exit status is 1 where a workbook could not be marked, which is told.",
		Example: "  ferrule mark catalogue -o marked",
		Args:    atLeast(1, "a folder or a workbook"),
		RunE: func(cmd *cobra.Command, args []string) error {
			if m.dir == "" {
				return &misuse{cmd, "mark needs a folder to write copies to: -o DIR"}
			}
			return m.run(cmd, args)
		},
	}
	cmd.Flags().StringVarP(&m.dir, "output", "o", "", "the `folder` to write copies to")
	cmd.Flags().StringVar(&m.today, "today", "", "the `date` that acceptances are held against, as 2027-03-01 (default: the clock)")
	return cmd
}

func (m *marking) run(cmd *cobra.Command, paths []string) error {
	today, err := date(m.today)
	if err != nil {
		return &misuse{cmd, err.Error()}
	}
	books, err := original.Note(paths)
	if err != nil {
		return err
	}
	w := newWatch(cmd.ErrOrStderr(), false)
	defer w.end()
	r, err := compiler.Compile(cmd.Context(), compiler.Input{Paths: paths}, compiler.Options{Today: today, Progress: w.stage})
	if err != nil {
		return err
	}
	w.end()
	marked := mark.Books(books.Names, r.Findings)
	stderr := cmd.ErrOrStderr()
	if len(marked) == 0 {
		say(stderr, "nothing is written: no finding stands")
		return nil
	}
	copies, left := m.copies(stderr, books, marked)
	if len(copies) > 0 {
		if err := place(cmd.Context(), cmd, m.dir, paths, copies); err != nil {
			return err
		}
		say(stderr, "wrote %s to %s; open a copy at its sheet Findings", count(len(copies), "marked copy", "marked copies"), m.dir)
	}
	if left > 0 {
		return exit(findings)
	}
	return nil
}

// copies makes the copies and tells what is in them, and which workbooks stay without one.
func (m *marking) copies(w io.Writer, books *original.Books, marked []*mark.Book) (copies []copied, left int) {
	for _, b := range marked {
		data, err := compiled(books)(b.Name)
		var c *mark.Marked
		if err == nil {
			c, err = b.Copy(data)
		}
		if err != nil {
			left++
			say(w, "%s is not marked: %s", b.Name, err.Error())
			continue
		}
		name := books.File(b.Name)
		copies = append(copies, copied{name, c.Bytes})
		tellMarked(w, filepath.Join(m.dir, name), c)
	}
	return copies, left
}

func tellMarked(w io.Writer, path string, c *mark.Marked) {
	also := ""
	if c.Left > 0 {
		also = fmt.Sprintf(", and %d more that are not listed", c.Left)
	}
	if c.Signed {
		also += "; the workbook is signed, and the signature does not hold for the copy"
	}
	say(w, "%s: %s marked, %s listed%s", path, count(c.Cells, "cell", "cells"), count(c.Listed, "finding", "findings"), also)
}

// count says how many of a thing there are.
func count(n int, one, others string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, others)
}
