// Package cli is the command line: flags, exit statuses, and what goes to which
// stream. Each command has a file of its own and calls the packages that do the work.
//
// Findings go to standard output, all else to standard error. The exit status is 0
// where all is done, 1 where findings stand in the way, 2 for wrong usage and for
// input that cannot be read, 3 for a fault of the program, and 128 and the number of the signal where
// one has stopped it: 129 for SIGHUP, 130 for SIGINT, 143 for SIGTERM.
package cli

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"runtime/debug"
	"syscall"

	"github.com/spf13/cobra"

	"ferrule/out/visible"
	"ferrule/sheets/guard"
)

// Exit statuses.
const (
	done     = 0
	findings = 1
	refused  = 2
	fault    = 3
)

// Run runs one command and gives its exit status. args are those after the name of
// the program.
func Run(ctx context.Context, args []string, stdout, stderr io.Writer) int {
	out, told := visible.NewWriter(stdout), visible.NewWriter(stderr)
	if nothingToComplete(args) {
		fmt.Fprintf(out, ":%d\n", cobra.ShellCompDirectiveNoFileComp)
		return done
	}
	root := command(out, told)
	root.SetArgs(args)
	status := execute(ctx, root, told)
	if errors.Join(out.Flush(), told.Flush()) != nil && status == done {
		return refused
	}
	return status
}

// execute turns a panic into a sentence and a status of its own: it is never the
// fault of the workbooks.
func execute(ctx context.Context, root *cobra.Command, stderr io.Writer) (status int) {
	defer func() {
		if cause := recover(); cause != nil {
			tellFault(stderr, cause)
			status = fault
		}
	}()
	return told(ctx, stderr, root.ExecuteContext(ctx))
}

// tellFault says what went wrong and where, with the stack of the goroutine that it did in.
func tellFault(stderr io.Writer, cause any) {
	f, ok := cause.(*guard.Fault)
	if !ok {
		f = &guard.Fault{Cause: cause, Stack: debug.Stack()}
	}
	fmt.Fprintf(stderr, "ferrule: a fault of the program, not of the workbooks: %v\n", f.Cause)
	for _, what := range f.About {
		say(stderr, "it happened while %s", what)
	}
	fmt.Fprintf(stderr, "please report it with the lines below and, if you may, the workbooks\n\n%s", f.Stack)
}

// command gives the root with all commands.
func command(stdout, stderr io.Writer) *cobra.Command {
	root := &cobra.Command{
		Use:   "ferrule",
		Short: "Compile fitment catalogues: check workbooks, publish guides",
		Long: "ferrule reads the workbooks of a fitment catalogue: which part fits which chassis. It says exactly\n" +
			"for which vehicles cells disagree, nothing is listed yet, or a part is wrong, answers questions\n" +
			"about single vehicles, and publishes guides.\n\n" +
			"PATH is a folder with workbooks, or single workbooks. They are only ever read.",
		Version:       version(),
		SilenceErrors: true,
		SilenceUsage:  true,
		Args:          cobra.ArbitraryArgs, // so that an unknown command comes to RunE
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) > 0 {
				return unknownCommand(cmd, args[0])
			}
			if started().clicked() {
				return (&serving{}).asked(cmd)
			}
			cmd.SetOut(stderr)
			return errors.Join(cmd.Help(), exit(refused))
		},
	}
	root.SetOut(stdout)
	root.SetErr(stderr)
	root.SetVersionTemplate("ferrule {{.Version}}\n")
	root.CompletionOptions.DisableDefaultCmd = true
	root.SetFlagErrorFunc(func(cmd *cobra.Command, err error) error { return &misuse{cmd, err.Error()} })
	group(root, "Check and publish:", checkCommand(), deskCommand(), markCommand(), fixCommand(), diffCommand(), buildCommand(), acceptCommand())
	group(root, "Ask the catalogue:", pickCommand(), fleetCommand(), whyCommand(), whereCommand(), gapsCommand(), vehiclesCommand())
	group(root, "Begin and learn:", newCommand(), layoutCommand(), explainCommand())
	group(root, "For other programs:", cellsCommand(), completionCommand(), manCommand(), versionCommand())
	root.SetHelpCommandGroupID("Begin and learn:")
	answerHelp(root)
	return root
}

// group adds commands that help lists under one title.
func group(root *cobra.Command, title string, commands ...*cobra.Command) {
	root.AddGroup(&cobra.Group{ID: title, Title: title})
	for _, c := range commands {
		c.GroupID = title
		root.AddCommand(complete(c))
	}
}

// misuse is a command line that makes no sense.
type misuse struct {
	cmd *cobra.Command
	why string
}

func (m *misuse) Error() string { return m.why }

// exit is a status with nothing left to say.
type exit int

func (e exit) Error() string { return fmt.Sprintf("exit status %d", int(e)) }

// Stopped is the cause of a context that a signal has ended.
type Stopped struct{ Signal os.Signal }

func (s *Stopped) Error() string { return "stopped by " + s.Signal.String() }

// status is what a shell says of a program that the signal has ended: 128 and its number.
func (s *Stopped) status() int {
	number, ok := s.Signal.(syscall.Signal)
	if !ok {
		return refused
	}
	return 128 + int(number)
}

// told prints what there is to say about an error and gives the status.
func told(ctx context.Context, stderr io.Writer, err error) int {
	var status exit
	var m *misuse
	var by *Stopped
	switch {
	case err == nil:
		return done
	case errors.As(err, &status):
		return int(status)
	case errors.Is(err, context.Canceled):
		fmt.Fprintln(stderr, "ferrule: stopped")
		if errors.As(context.Cause(ctx), &by) {
			return by.status()
		}
	case errors.As(err, &m):
		say(stderr, "ferrule: %s", m.why)
		say(stderr, "hint: %s --help", m.cmd.CommandPath())
	default:
		for _, e := range parts(err) {
			say(stderr, "ferrule: %s", e.Error())
		}
	}
	return refused
}

// atLeast asks for a number of arguments.
func atLeast(n int, what string) cobra.PositionalArgs {
	return func(cmd *cobra.Command, args []string) error {
		if len(args) < n {
			return &misuse{cmd, fmt.Sprintf("%s needs %s", cmd.Name(), what)}
		}
		return nil
	}
}

// atMost allows a number of arguments.
func atMost(n int, what string) cobra.PositionalArgs {
	return func(cmd *cobra.Command, args []string) error {
		if len(args) > n {
			as := "not %q as well"
			if n == 0 {
				as = "and %q is one"
			}
			return &misuse{cmd, fmt.Sprintf("%s takes %s, "+as, cmd.Name(), what, args[n])}
		}
		return nil
	}
}

// both asks for all of several.
func both(rules ...cobra.PositionalArgs) cobra.PositionalArgs { return cobra.MatchAll(rules...) }

// colored tells whether to write colours: on a terminal, unless NO_COLOR is set
// (no-color.org: present and not empty) or the terminal can do nothing.
func colored(w io.Writer) bool {
	if os.Getenv("NO_COLOR") != "" || os.Getenv("TERM") == "dumb" {
		return false
	}
	_, terminal := columns(w)
	return terminal
}
