package main

import (
	"bytes"
	"context"
	"debug/buildinfo"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
)

// module is what a program has in it from elsewhere, and where its source lies.
type module struct{ path, version, dir string }

// licences gives the text that names every module in the program with its version,
// followed by the texts of its licences. A module without any is an error: nobody
// could say on what terms it may be passed on.
func licences(ctx context.Context, root string, program []byte) ([]byte, error) {
	all, err := modules(ctx, root, program)
	if err != nil {
		return nil, err
	}
	var list, texts strings.Builder
	list.WriteString("The program contains these modules of others, each under its own licence. The texts follow.\n\n")
	for _, m := range all {
		fmt.Fprintf(&list, "%s %s\n", m.path, m.version)
		if err := m.terms(&texts); err != nil {
			return nil, err
		}
	}
	return []byte(list.String() + texts.String()), nil
}

// modules lists Go's own library, then what the program's build information names.
func modules(ctx context.Context, root string, program []byte) ([]module, error) {
	info, err := buildinfo.Read(bytes.NewReader(program))
	if err != nil {
		return nil, err
	}
	home, err := run(ctx, root, os.Environ(), "env", "GOROOT")
	if err != nil {
		return nil, err
	}
	all := []module{{"Go standard library", info.GoVersion, strings.TrimSpace(string(home))}}
	for _, dep := range info.Deps {
		if dep.Replace != nil {
			return nil, fmt.Errorf("%s is replaced by %s, whose licence is not looked for", dep.Path, dep.Replace.Path)
		}
		dir, err := run(ctx, root, os.Environ(), "list", "-m", "-f", "{{.Dir}}", dep.Path)
		if err != nil {
			return nil, err
		}
		all = append(all, module{dep.Path, dep.Version, strings.TrimSpace(string(dir))})
	}
	return all, nil
}

// terms writes the licence files of a module: those at its root, which there must be,
// and those of what it has taken in from others.
func (m module) terms(w *strings.Builder) error {
	names, err := m.files()
	if err != nil {
		return err
	}
	if len(names) == 0 || strings.Contains(names[0], "/") {
		return fmt.Errorf("%s %s has no licence file in %q", m.path, m.version, m.dir)
	}
	for _, name := range names {
		data, err := os.ReadFile(filepath.Join(m.dir, filepath.FromSlash(name)))
		if err != nil {
			return err
		}
		fmt.Fprintf(w, "\n==== %s %s: %s\n\n%s\n", m.path, m.version, name, bytes.TrimSpace(data))
	}
	return nil
}

// files names the licence files of a module as slash paths, those at its root first.
// Data of tests is in no program.
func (m module) files() ([]string, error) {
	if m.dir == "" {
		return nil, nil
	}
	licence := regexp.MustCompile(`(?i)^(licen[cs]e|copying|copyright|notice|patents|unlicense)([.-][a-z0-9.-]*)?$`)
	var top, below []string
	err := filepath.WalkDir(m.dir, func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() && d.Name() == "testdata" {
			return fs.SkipDir
		}
		name, err := filepath.Rel(m.dir, path)
		switch {
		case err != nil || !d.Type().IsRegular() || !licence.MatchString(d.Name()) || filepath.Ext(name) == ".go":
		case name == d.Name():
			top = append(top, name)
		default:
			below = append(below, filepath.ToSlash(name))
		}
		return err
	})
	return append(top, below...), err
}
