package cli

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"os"
	"strings"

	"github.com/spf13/cobra"

	"ferrule/compiler"
	"ferrule/compiler/finding"
	"ferrule/out/report"
	"ferrule/schema/word"
)

// asking holds the flags of the commands that ask a catalogue something instead of
// checking it.
type asking struct {
	format string
}

func (a *asking) flags(cmd *cobra.Command) {
	cmd.Flags().StringVar(&a.format, "format", "text", "the `format` of the answer: text or json")
}

// check reads --format.
func (a *asking) check(cmd *cobra.Command) error {
	if a.format == "text" || a.format == "json" {
		return nil
	}
	return &misuse{cmd, fmt.Sprintf("--format: there is no format %q%s, write text or json",
		a.format, word.DidYouMean(a.format, []string{"text", "json"}))}
}

// catalogue binds the workbooks. Errors that stand in them are counted on standard
// error: what they are about may be missing from the answer.
func (a *asking) catalogue(cmd *cobra.Command, paths []string) (*compiler.Result, error) {
	w := newWatch(cmd.ErrOrStderr(), false)
	defer w.end()
	r, err := compiler.Compile(cmd.Context(), compiler.Input{Paths: paths}, compiler.Options{Progress: w.stage, Unchecked: true})
	if err != nil {
		return nil, err
	}
	w.end()
	if !r.Whole {
		return nil, errors.New("a workbook cannot be read whole, so nothing can be said; ferrule check tells what is wrong")
	}
	if n := finding.Summarise(r.Findings).Errors; n > 0 {
		what, them := "an error stands", "it is"
		if n > 1 {
			what, them = fmt.Sprintf("%d errors stand", n), "they are"
		}
		say(cmd.ErrOrStderr(), "%s in these workbooks, and what %s about may be missing here; ferrule check tells", what, them)
	}
	return r, nil
}

// answer writes to standard output in the format asked for.
func (a *asking) answer(cmd *cobra.Command, text func(io.Writer, report.Options) error, json func(io.Writer) error) error {
	out := output(cmd, a.format)
	buffered := bufio.NewWriter(out)
	var err error
	if a.format == "json" {
		err = json(buffered)
	} else {
		width, _ := columns(out)
		err = text(buffered, report.Options{Width: width, Color: colored(out)})
	}
	if err = first(err, buffered.Flush()); err != nil {
		return fmt.Errorf("the answer could not be written: %w", err)
	}
	return nil
}

// split parts paths from answers such as Levelling=Mechanical: what holds an equals sign
// and is no file.
func split(args []string) (paths, answers []string) {
	for _, a := range args {
		if _, err := os.Stat(a); err != nil && strings.Contains(a, "=") {
			answers = append(answers, a)
		} else {
			paths = append(paths, a)
		}
	}
	return paths, answers
}
