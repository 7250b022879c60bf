// Package release reads a release of a catalogue from wherever it is: a folder with
// workbooks or a single workbook, a folder as git knows it in one revision (REV:PATH), or
// what an earlier build wrote for the staff. What a run has found is held against it.
package release

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"ferrule/compiler"
	"ferrule/compiler/finding"
	"ferrule/compiler/intake"
	"ferrule/compiler/reason"
	"ferrule/compiler/release/compare"
	"ferrule/compiler/release/staff"
)

// Release is one state of a catalogue with what a run found in it.
type Release struct {
	compare.Release
	Findings []*finding.Finding
	State    State
	Folder   string // the staff's folder of the build that it was read from, "" for anything else
}

// State says what one release was read from.
type State struct {
	Source string // as it was asked for
	Kind   string // workbooks, revision or staff
	Title  string // of the catalogue, "" for none
	Label  string // the Release of its Settings, "" for none
	// Workbooks, sheets and rows that were read; 0 for a staff folder.
	Workbooks, Sheets, Rows int
	Findings                finding.Summary
}

// Open reads a release. What exists as a file or a folder is that; otherwise REV:PATH is
// what git has at a path of its repository. Workbooks are compiled with the options, for
// comparing. The error is a sentence for the user, and the context's where that is over.
func Open(ctx context.Context, name string, o compiler.Options) (*Release, error) {
	info, err := os.Stat(name)
	switch {
	case err == nil && info.IsDir():
		return folder(ctx, name, o)
	case err == nil:
		return compiled(ctx, name, name, o)
	case strings.Contains(name, ":"):
		return revision(ctx, name, o)
	}
	return nil, fmt.Errorf("%s cannot be read: %w; a folder in a git revision is written REV:PATH", name, reason.Of(err))
}

// folder reads what a build wrote, or else workbooks.
func folder(ctx context.Context, name string, o compiler.Options) (*Release, error) {
	if dir := staffFolder(name); dir != "" {
		return earlier(name, dir)
	}
	r, err := compiled(ctx, name, name, o)
	if errors.Is(err, intake.ErrNoWorkbook) {
		return nil, fmt.Errorf("%w, nor both catalogue.json and findings.json, which a build writes for the staff", err)
	}
	return r, err
}

// staffFolder gives the staff's folder that a folder is or holds, "" for none.
func staffFolder(dir string) string {
	for _, at := range []string{dir, filepath.Join(dir, "staff")} {
		if staff.Is(os.DirFS(at)) {
			return at
		}
	}
	return ""
}

func earlier(name, dir string) (_ *Release, err error) {
	root, err := os.OpenRoot(dir) // which no link leads out of
	if err != nil {
		return nil, fmt.Errorf("%s cannot be read: %w", name, reason.Of(err))
	}
	defer func() { err = errors.Join(err, root.Close()) }()
	e, err := staff.Read(root.FS())
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	out := newRelease(e.Release, e.Findings, State{Source: name, Kind: "staff"})
	out.Folder = dir
	return out, nil
}

// compiled compiles what is at a path and is called otherwise.
func compiled(ctx context.Context, name, path string, o compiler.Options) (*Release, error) {
	o.Compare, o.Guides = true, false
	r, err := compiler.Compile(ctx, compiler.Input{Paths: []string{path}}, o)
	if err != nil {
		return nil, called(err, name, path)
	}
	return of(r, name, "workbooks")
}

// called puts the name that the user knows into an error about a path.
func called(err error, name, path string) error {
	if name == path || errors.Is(err, context.Canceled) || errors.Is(err, context.DeadlineExceeded) {
		return err
	}
	return errors.New(strings.ReplaceAll(err.Error(), path, name))
}

// Of gives the release that a run of the compiler with Options.Compare has read from workbooks; name is what the user
// calls them.
func Of(r *compiler.Result, name string) (*Release, error) { return of(r, name, "workbooks") }

// of gives the release that a run of the compiler with Options.Compare has read; name is
// what the user calls it, kind one of State. A run that cannot be compared is an
// error: rows that are missing would look like vehicles and parts that are.
func of(r *compiler.Result, name, kind string) (*Release, error) {
	for _, f := range r.Findings {
		gone := f.Code == finding.SheetMissing || f.Code == finding.ColumnMissing
		if f.Code == finding.WorkbookUnreadable || gone && r.Catalogue != nil && r.Catalogue.Undeclared {
			return nil, fmt.Errorf("%s cannot be compared: %s", name, f.Message)
		}
	}
	s := State{Source: name, Kind: kind, Workbooks: len(r.Read.Files)}
	for _, f := range r.Read.Files {
		for _, sheet := range f.Sheets {
			if sheet.Kind != "" {
				s.Sheets++
				s.Rows += sheet.Rows
			}
		}
	}
	return newRelease(*r.Release(), r.Findings, s), nil
}

func newRelease(r compare.Release, fs []*finding.Finding, s State) *Release {
	s.Title, s.Label = r.Catalogue.Settings.Title, r.Catalogue.Settings.Release
	s.Findings = finding.Summarise(fs)
	return &Release{Release: r, Findings: fs, State: s}
}
