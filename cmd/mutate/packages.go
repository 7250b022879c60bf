package main

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
)

// A pkg is a package of the module, as `go list` tells of it.
type pkg struct {
	ImportPath, Dir string
	GoFiles         []string
	TestGoFiles     []string
	XTestGoFiles    []string
	Deps            []string

	Lines int               // of its files that are not tests
	Sites map[string][]site // by operator, where nothing was drawn yet
}

func (p *pkg) tested() bool { return len(p.TestGoFiles)+len(p.XTestGoFiles) > 0 }

// sees tells whether the tests of p run code of the other package.
func (p *pkg) sees(other *pkg) bool {
	return p.ImportPath == other.ImportPath || slices.Contains(p.Deps, other.ImportPath)
}

// list gives the packages of the patterns in their order, with what their tests import
// among what they depend on.
func list(ctx context.Context, patterns []string) ([]*pkg, error) {
	cmd := exec.CommandContext(ctx, "go", append([]string{"list", "-e", "-test", "-json=ImportPath,Dir,GoFiles,TestGoFiles,XTestGoFiles,Deps,ForTest"}, patterns...)...)
	cmd.Stderr = os.Stderr
	text, err := cmd.Output()
	if err != nil {
		return nil, fmt.Errorf("go list: %w", err)
	}
	return decode(text)
}

func decode(text []byte) ([]*pkg, error) {
	var out []*pkg
	byPath := map[string]*pkg{}
	for d := json.NewDecoder(bytes.NewReader(text)); ; {
		var p struct {
			pkg
			ForTest string
		}
		if err := d.Decode(&p); errors.Is(err, io.EOF) {
			return out, nil
		} else if err != nil {
			return nil, fmt.Errorf("go list: %w", err)
		}
		if tests, ok := strings.CutSuffix(p.ImportPath, ".test"); ok {
			for _, d := range p.Deps { // 'a [b.test]' is a, built anew for the tests of b
				name, _, _ := strings.Cut(d, " ")
				byPath[tests].Deps = append(byPath[tests].Deps, name)
			}
		} else if p.ForTest == "" {
			byPath[p.ImportPath] = &p.pkg
			out = append(out, &p.pkg)
		}
	}
}

// read finds the sites of the package.
func (p *pkg) read() error {
	p.Sites = map[string][]site{}
	for _, name := range p.GoFiles {
		path := filepath.Join(p.Dir, name)
		text, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		p.Lines += bytes.Count(text, []byte("\n"))
		found, err := sites(path, string(text))
		if err != nil {
			return err
		}
		for _, s := range found {
			p.Sites[s.Operator] = append(p.Sites[s.Operator], s)
		}
	}
	return nil
}

// only forgets the sites on other lines than these, unless there are none.
func (p *pkg) only(root string, lines []string) {
	if len(lines) == 0 {
		return
	}
	for operator, found := range p.Sites {
		left := slices.DeleteFunc(found, func(s site) bool {
			file, err := filepath.Rel(root, s.File)
			return err != nil || !slices.Contains(lines, fmt.Sprintf("%s:%d", filepath.ToSlash(file), s.Line))
		})
		if p.Sites[operator] = left; len(left) == 0 {
			delete(p.Sites, operator)
		}
	}
}
