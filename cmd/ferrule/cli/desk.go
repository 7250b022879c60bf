package cli

import (
	"context"
	"errors"
	"fmt"
	"net"
	"net/http"
	"os/exec"
	"runtime"
	"time"

	"github.com/spf13/cobra"

	"ferrule/compiler/intake"
	"ferrule/out/desk"
	"ferrule/sheets/guard"
)

// serving holds the flags of desk.
type serving struct {
	since, today  string
	port          int
	quiet, detail bool
	ask           bool
}

func deskCommand() *cobra.Command {
	var s serving
	cmd := &cobra.Command{
		Use:   "desk [PATH…]",
		Short: "Show what is wrong in a browser, right a moment after each save",
		Long: "Opens pages in the browser that follow the workbooks while they are edited: findings beside their\n" +
			"rows, repairs to take or to leave, coverage, gaps with rows to try and to paste, single vehicles, what has\n" +
			"changed since a release, and the guides as they would be published. Without PATH it is the folder that\n" +
			"the program runs in.\n\n" +
			"The pages are for this machine and this person: the server listens on the loopback address only and\n" +
			"asks for a token, which is in the address that is printed. Workbooks are only read. Ctrl-C ends it.\n\n" +
			"With --ask it opens the folder that the program stands in, where workbooks are in that, and else the page\n" +
			"asks for a folder. A program that is clicked in a file manager does the same.",
		Example: "  ferrule desk catalogue\n  ferrule desk catalogue --since main:catalogue",
		RunE: func(cmd *cobra.Command, args []string) error {
			if s.ask && len(args) > 0 {
				return &misuse{cmd, "--ask has the page ask for a folder, and one is named"}
			}
			if s.ask {
				return s.asked(cmd)
			}
			if len(args) == 0 {
				args = []string{"."}
			}
			return s.serve(cmd, args, nil)
		},
	}
	cmd.Flags().StringVar(&s.since, "since", "", "a `release` whose findings are known: a folder, REV:PATH, or what a build wrote")
	cmd.Flags().StringVar(&s.today, "today", "", "the `date` that acceptances are held against, as 2027-03-01 (default: the clock)")
	cmd.Flags().IntVar(&s.port, "port", 0, "the `number` of the port (default: any that is free)")
	cmd.Flags().BoolVar(&s.ask, "ask", false, "open the folder that the program stands in, or ask for one in the page")
	cmd.Flags().BoolVar(&s.quiet, "no-browser", false, "print the address and open no browser")
	cmd.Flags().BoolVarP(&s.detail, "verbose", "v", false, "tell on standard error what each change took")
	return cmd
}

// errEnded says that somebody has ended the program from a page.
var errEnded = errors.New("ended from a page")

// serve listens until the context ends, or somebody ends it from a page. Where near is given, a page may ask for
// another folder and lists what is in those.
func (s *serving) serve(cmd *cobra.Command, paths, near []string) error {
	if _, err := date(s.today); err != nil {
		return &misuse{cmd, err.Error()}
	}
	if len(paths) > 0 {
		if _, err := intake.Find(paths); err != nil && !errors.Is(err, intake.ErrNoWorkbook) {
			return err
		}
	}
	listener, err := (&net.ListenConfig{}).Listen(cmd.Context(), "tcp", fmt.Sprintf("127.0.0.1:%d", s.port))
	if err != nil {
		return fmt.Errorf("the desk cannot listen: %w", err)
	}
	ctx, end := context.WithCancelCause(cmd.Context())
	defer end(nil)
	o := desk.Options{Paths: paths, Since: s.since, Today: func() string { day, _ := date(s.today); return day }}
	if s.detail {
		o.Log = cmd.ErrOrStderr()
	}
	if near != nil {
		o.Ask = &desk.Ask{Near: near, End: func() { end(errEnded) }}
	}
	d := desk.New(o)
	defer d.Close()
	door := desk.NewDoor(listener.Addr())
	say(cmd.ErrOrStderr(), "the desk is open at http://%s/#%s", listener.Addr().String(), door.Token)
	if near != nil {
		say(cmd.ErrOrStderr(), "it ends with this window, or with the button at the foot of its pages")
	}
	if !s.quiet {
		browse(fmt.Sprintf("http://%s/#%s", listener.Addr(), door.Ticket()))
	}
	err = attend(ctx, listener, d, door)
	if errors.Is(context.Cause(ctx), errEnded) {
		return nil
	}
	return err
}

// attend answers requests and follows the workbooks until the context ends.
func attend(ctx context.Context, listener net.Listener, d *desk.Desk, door *desk.Door) error {
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	server := &http.Server{Handler: d.Handler(door), ReadHeaderTimeout: 10 * time.Second,
		BaseContext: func(net.Listener) context.Context { return ctx }}
	group := guard.NewGroup()
	group.Go(func() { d.Run(ctx) })
	group.Go(func() {
		select {
		case <-ctx.Done():
		case <-group.Failed():
		}
		cancel()
		server.Close() //nolint:errcheck // whoever is connected is let go of
	})
	err := server.Serve(listener)
	cancel()
	group.Wait()
	if errors.Is(err, http.ErrServerClosed) {
		return ctx.Err()
	}
	return err
}

// browse opens an address in the browser, where there is one that can be asked.
func browse(address string) {
	name, args := "xdg-open", []string{address}
	switch runtime.GOOS {
	case "darwin":
		name = "open"
	case "windows":
		name, args = "rundll32", []string{"url.dll,FileProtocolHandler", address}
	}
	cmd := exec.Command(name, args...) //nolint:gosec // the address is our own
	if cmd.Start() == nil {
		guard.Beside(func() { cmd.Wait() }) //nolint:errcheck // nobody waits for a browser
	}
}
