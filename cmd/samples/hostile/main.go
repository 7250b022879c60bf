// Command hostile makes workbooks that are damaged, odd or made to do harm:
//
//	go run ./cmd/samples/hostile [-o testdata/hostile]
//
// What is read of each, or why it is refused, is told by the tests of package sheets.
package main

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"slices"
)

func main() {
	dir := flag.String("o", "testdata/hostile", "the folder to write to")
	flag.Parse()
	if err := run(*dir); err != nil {
		fmt.Fprintln(os.Stderr, "hostile:", err)
		os.Exit(1)
	}
}

// sample is a file by its name.
type sample struct {
	name string
	data []byte
}

// samples lists all files.
func samples() []sample {
	return slices.Concat(strangers(), containers(), packages(), texts(), cells())
}

func run(dir string) error {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	for _, s := range samples() {
		if err := os.WriteFile(filepath.Join(dir, s.name+".xlsx"), s.data, 0o644); err != nil {
			return err
		}
	}
	return nil
}
