package cli

import (
	"bufio"
	"cmp"
	"context"
	"errors"
	"fmt"
	"os"
	"strings"

	"github.com/spf13/cobra"

	"ferrule/compiler/parallel"
	"ferrule/out/visible"
	"ferrule/sheets"
	"ferrule/sheets/cell"
)

func cellsCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "cells [--format json] WORKBOOK",
		Short: "Print every cell of a workbook, for git diff and other programs",
		Long: "Prints each cell that is not empty as one line, in the order of sheets and rows. Five fields are\n" +
			"separated by tabs: sheet, cell, kind, value and formula.\n\n" +
			"The kind is text, number, date, bool or error; it is blank, and so is the value, where a formula\n" +
			"was never calculated. A number is the shortest decimal that reads back to the same double, a date\n" +
			"is ISO 8601, a formula stands as it is stored, without the equals sign. Tab, line break, carriage\n" +
			"return and backslash are written as \\t, \\n, \\r and \\\\. Other signs that cannot be seen stand as \\u200b.\n\n" +
			"With --format json before the workbook, the same is one JSON object: sheets with their cells.\n\n" +
			"A workbook that cannot be read whole prints nothing but the reason, on standard error, and the\n" +
			"exit status is 2. A single argument is always a file, also where it begins with a dash.",
		Example: "  ferrule cells fitment.xlsx\n\n" +
			"  git diff shows the cells of workbooks with the line\n" +
			"      *.xls[xm] diff=ferrule -whitespace\n" +
			"  in .gitattributes, and after\n" +
			"      git config diff.ferrule.textconv \"ferrule cells\"",
		// git gives names as they are, and a workbook may be called -v.xlsx.
		DisableFlagParsing: true,
		RunE: func(cmd *cobra.Command, args []string) error {
			if asksHelp(args) {
				return cmd.Help()
			}
			format, args, err := cellsFormat(cmd, args)
			if err != nil {
				return err
			}
			if err := both(atLeast(1, "a workbook"), atMost(1, "one workbook"))(cmd, args); err != nil {
				return err
			}
			return printCells(cmd, args[0], format)
		},
	}
}

// cellsFormat takes --format and -- off the front. A single argument is always a file.
func cellsFormat(cmd *cobra.Command, args []string) (format string, rest []string, err error) {
	a := asking{format: "text"}
	switch {
	case len(args) > 2 && args[0] == "--format":
		a.format, args = args[1], args[2:]
	case len(args) > 1 && strings.HasPrefix(args[0], "--format="):
		a.format, args = strings.TrimPrefix(args[0], "--format="), args[1:]
	}
	if len(args) == 2 && args[0] == "--" {
		args = args[1:]
	}
	return a.format, args, a.check(cmd)
}

// asksHelp tells whether help is asked for, and not a workbook of that name.
func asksHelp(args []string) bool {
	if len(args) != 1 || args[0] != "-h" && args[0] != "--help" {
		return false
	}
	_, err := os.Lstat(args[0])
	return err != nil
}

// printCells reads the workbook twice: once to know that it can be read whole, and once
// to print it, so that memory does not grow with the rows.
func printCells(cmd *cobra.Command, name, format string) (err error) {
	book, err := openBook(cmd.Context(), name)
	if err != nil {
		return named(name, err)
	}
	defer func() { err = errors.Join(err, book.Close()) }()
	if err := tryRows(cmd, name, book); err != nil {
		return named(name, err)
	}
	// Lines are escaped as JSON is, since a backslash is escaped in both.
	out := bufio.NewWriterSize(output(cmd, "json"), 1<<16)
	if format == "json" {
		err = cellsJSON(cmd.Context(), out, book)
		return errors.Join(named(name, err), unwritten(out.Flush()))
	}
	p := &cellPrinter{out, strings.NewReplacer("\\", `\\`, "\t", `\t`, "\n", `\n`, "\r", `\r`)}
	if err := rows(cmd.Context(), book, p.row); err != nil {
		return named(name, err) // someone wrote to it meanwhile
	}
	return unwritten(out.Flush())
}

// openBook opens a workbook, which its texts and formats can make long.
func openBook(ctx context.Context, name string) (*sheets.Book, error) {
	var book *sheets.Book
	var err error
	if stopped := parallel.Until(ctx, func() { book, err = sheets.Open(name) }); stopped != nil {
		return nil, stopped
	}
	return book, err
}

// tryRows reads all rows and does nothing with them.
func tryRows(cmd *cobra.Command, name string, book *sheets.Book) error {
	shown := startProgress(cmd.ErrOrStderr())
	defer shown.end()
	shown.show("reading " + visible.Text(name))
	return rows(cmd.Context(), book, func(string, *sheets.Row) error { return nil })
}

// named says of which workbook a fault is. Other errors are not about the workbook.
func named(name string, err error) error {
	var fault *sheets.Fault
	if !errors.As(err, &fault) {
		return err
	}
	return fmt.Errorf("%s cannot be read whole: %w", cmp.Or(visible.Text(name), `""`), fault)
}

// unwritten says of an error that it is about standard output.
func unwritten(err error) error {
	if err == nil {
		return nil
	}
	return fmt.Errorf("the cells could not be written: %w", err)
}

// rows gives every row of every sheet, with the sheet's name, to yield.
func rows(ctx context.Context, book *sheets.Book, yield func(sheet string, r *sheets.Row) error) error {
	for i, info := range book.Sheets() {
		if err := sheetRows(ctx, book, i, func(r *sheets.Row) error { return yield(info.Name, r) }); err != nil {
			return err
		}
	}
	return nil
}

// sheetRows gives every row of one sheet, until the context ends.
func sheetRows(ctx context.Context, book *sheets.Book, sheet int, yield func(*sheets.Row) error) error {
	_, err := book.Rows(sheet, func(r *sheets.Row) error {
		if err := ctx.Err(); err != nil {
			return err
		}
		return yield(r)
	})
	return err
}

// cellPrinter prints cells as lines.
type cellPrinter struct {
	out    *bufio.Writer
	escape *strings.Replacer
}

// row prints the cells of a row. The buffer keeps its first error, so one look is enough.
func (p *cellPrinter) row(sheet string, r *sheets.Row) (err error) {
	sheet = p.escape.Replace(sheet)
	for i := range r.Cells {
		c := &r.Cells[i]
		p.out.WriteString(sheet)
		p.out.WriteByte('\t')
		p.out.WriteString(cell.Pos{Row: r.Number, Col: c.Col}.String())
		p.out.WriteByte('\t')
		p.out.WriteString(kindName(c.Kind))
		p.out.WriteByte('\t')
		p.escape.WriteString(p.out, c.Text)
		p.out.WriteByte('\t')
		p.escape.WriteString(p.out, c.Formula)
		err = p.out.WriteByte('\n')
	}
	return unwritten(err)
}

// kindName gives the third field of a line.
func kindName(k sheets.Kind) string {
	switch k {
	case sheets.Blank:
		return "blank"
	case sheets.Text:
		return "text"
	case sheets.Number:
		return "number"
	case sheets.Date:
		return "date"
	case sheets.Bool:
		return "bool"
	case sheets.Error:
		return "error"
	}
	panic(fmt.Sprintf("cells: a cell is of no kind (%d)", k))
}
