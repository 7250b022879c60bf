package cli

import (
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"ferrule/out/visible"
)

// say writes a line for people. Texts among args stand on it whatever they hold: a line
// break of a name would begin a line that nobody wrote.
func say(w io.Writer, format string, args ...any) {
	for i, a := range args {
		if text, ok := a.(string); ok {
			args[i] = visible.Text(text)
		}
	}
	fmt.Fprintf(w, format+"\n", args...)
}

// parts gives the errors that were joined to one.
func parts(err error) []error {
	if all, ok := err.(interface{ Unwrap() []error }); ok {
		return all.Unwrap()
	}
	return []error{err}
}

// first gives the first error that is one: what fails to be written fails again when a
// buffer is emptied.
func first(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}

// output gives where a command writes its answer in a format.
func output(cmd *cobra.Command, format string) io.Writer {
	out := cmd.OutOrStdout()
	w, ok := out.(*visible.Writer)
	if !ok {
		return out
	}
	return w.Set(form(format, colored(out)))
}

// form says how signs are escaped in a format.
func form(format string, colours bool) visible.Form {
	switch {
	case format == "json" || format == "jsonl" || format == "sarif":
		return visible.JSON
	case format == "junit":
		return visible.XML
	case format == "github":
		return visible.Commands
	case format == "text" && colours:
		return visible.Colours
	}
	return visible.Plain
}

// below gives what a writer writes to in the end: a terminal is known by its file.
func below(w io.Writer) io.Writer {
	if v, ok := w.(*visible.Writer); ok {
		return v.Under()
	}
	return w
}
