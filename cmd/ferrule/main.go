// Command ferrule compiles fitment catalogues: it checks workbooks and publishes
// guides.
package main

import (
	"context"
	"os"
	"os/signal"

	"ferrule/cmd/ferrule/cli"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	status := cli.Run(ctx, os.Args[1:], os.Stdout, os.Stderr)
	stop()
	os.Exit(status)
}
