// Command release makes the archives that people without Go unpack and run:
//
//	go run ./cmd/release -o DIR [-C .]
//
// There is one for each operating system and architecture, and SHA256SUMS beside them.
// The same tree and the same release of Go give the same bytes, whenever, wherever and
// by whomever they are made. DIR is replaced whole or not at all, and only where it is
// new, empty or an earlier output.
package main

import (
	"context"
	"flag"
	"fmt"
	"os"
	"os/signal"
)

func main() {
	dir := flag.String("o", "", "the folder that the archives are written to")
	root := flag.String("C", ".", "the folder of the program's source")
	flag.Parse()
	if *dir == "" || flag.NArg() > 0 {
		fmt.Fprintln(os.Stderr, "usage: release -o DIR [-C SOURCE]")
		os.Exit(2)
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	if err := release(ctx, *root, *dir, targets()); err != nil {
		fmt.Fprintln(os.Stderr, "release:", err)
		os.Exit(1)
	}
}
