package main

import (
	"context"
	"os"
	"os/signal"
	"syscall"

	"ferrule/cmd/ferrule/cli"
	"ferrule/sheets/guard"
)

// listen gives a context that ends with the first signal to stop, whose cause says which one
// it was. From then on nobody listens, so that a second one ends the process at once.
func listen(parent context.Context) (context.Context, func()) {
	ctx, end := context.WithCancelCause(parent)
	came := make(chan os.Signal, 1)
	if wanted := stopping(); len(wanted) > 0 { // Notify takes none for all
		signal.Notify(came, wanted...)
	}
	guard.Beside(func() {
		select {
		case s := <-came:
			signal.Stop(came)
			end(&cli.Stopped{Signal: s})
		case <-ctx.Done():
		}
	})
	return ctx, func() { end(nil) }
}

// stopping gives the signals that ask to stop, but for those that whoever started the program
// wants ignored (nohup, a job in the background): listening would undo that.
func stopping() []os.Signal {
	var out []os.Signal
	for _, s := range []os.Signal{os.Interrupt, syscall.SIGTERM, syscall.SIGHUP} {
		if !signal.Ignored(s) {
			out = append(out, s)
		}
	}
	return out
}
