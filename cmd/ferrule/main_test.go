package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
	"golang.org/x/tools/txtar"

	"ferrule/compiler/tidy/share"
	"ferrule/out/markup"
)

// scripts is where the scripts of whole-program tests are.
const scripts = "../../testdata/script"

var update = flag.Bool("update", false, "write golden files anew")

func TestMain(m *testing.M) {
	share.Roomy()
	testscript.Main(m, map[string]func(){"ferrule": main, "stubborn": stubborn})
}

// stubborn is a program that a first signal does not end: it says which one it was, and goes on.
func stubborn() {
	ctx, _ := listen(context.Background())
	fmt.Println("listening")
	<-ctx.Done()
	fmt.Println(context.Cause(ctx))
	select {}
}

// TestScripts runs the program as users do. Beside the usual commands a script has
// `exits N command…`, which wants exactly that exit status, and `book DIR`, which
// turns the script's files below DIR (`DIR/parts.xlsx/Kits`, see package markup) into
// workbooks.
func TestScripts(t *testing.T) {
	samples, err := filepath.Abs("../../testdata")
	if err != nil {
		t.Fatal(err)
	}
	testscript.Run(t, testscript.Params{
		Dir:                 scripts,
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
		UpdateScripts:       *update,
		Setup: func(e *testscript.Env) error {
			e.Setenv("SAMPLES", samples)
			e.Setenv("GOGC", os.Getenv("GOGC"))
			return nil
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){"exits": exits, "book": book},
	})
}

func exits(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: exits N command…")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	got := 0
	if err := ts.Exec(args[1], args[2:]...); err != nil {
		var exit *exec.ExitError
		if !errors.As(err, &exit) {
			ts.Fatalf("%v", err)
		}
		got = exit.ExitCode()
	}
	if got != want {
		ts.Fatalf("exit status %d, not %d", got, want)
	}
}

func book(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 1 {
		ts.Fatalf("usage: book DIR")
	}
	text, err := os.ReadFile(filepath.Join(scripts, ts.Name()+".txtar"))
	ts.Check(err)
	below := &txtar.Archive{}
	for _, f := range txtar.Parse(text).Files {
		if name, ok := strings.CutPrefix(f.Name, args[0]+"/"); ok {
			below.Files = append(below.Files, txtar.File{Name: name, Data: f.Data})
		}
	}
	books, err := markup.Books(txtar.Format(below))
	ts.Check(err)
	if len(books) == 0 {
		ts.Fatalf("the script has no workbook below %s", args[0])
	}
	dir := ts.MkAbs(args[0])
	for _, b := range books { // the script's own files stand where the workbooks will
		ts.Check(os.RemoveAll(filepath.Join(dir, b.Name)))
	}
	ts.Check(markup.WriteAll(dir, books, markup.Options{Plain: true}))
}
