// Command ferrule compiles fitment catalogues: it checks workbooks and publishes
// guides.
package main

import (
	"context"
	"os"

	"ferrule/cmd/ferrule/cli"
)

func main() {
	ctx, stop := listen(context.Background())
	status := cli.Run(ctx, os.Args[1:], os.Stdout, os.Stderr)
	stop()
	os.Exit(status)
}
