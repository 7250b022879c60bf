package main

import (
	"fmt"
	"os"
	"path"
	"path/filepath"
	"strings"
)

// patterns are the files beside the program: what the README and the pages that it leads to speak of, under
// the same names, so that its links lead somewhere and its commands can be typed as they stand.
func patterns() []string {
	return []string{
		"README.md", "DEVELOPERS.md", ".pre-commit-hooks.yaml",
		"schema/*.md", "schema/*.js", "schema/published/*.json", "compiler/measure/nominal.tsv",
		"testdata/demo/*.xlsx", "testdata/demo/pictures/*", "testdata/existing/*.xlsx", "testdata/fleet/*.csv",
	}
}

// documents reads them. A pattern that nothing matches is an error: the archive would
// lack what it promises.
func documents(root string) ([]file, error) {
	var files []file
	for _, p := range patterns() {
		names, err := filepath.Glob(filepath.Join(root, filepath.FromSlash(p)))
		if err != nil {
			return nil, err
		}
		before := len(files)
		for _, name := range names {
			if base := filepath.Base(name); base != path.Base(p) && passing(base) {
				continue
			}
			f, err := document(root, name)
			if err != nil {
				return nil, err
			}
			files = append(files, f)
		}
		if len(files) == before {
			return nil, fmt.Errorf("%s has no %s", root, p)
		}
	}
	return files, nil
}

// passing tells of what editors put beside a file while it is open.
func passing(base string) bool {
	return strings.HasPrefix(base, "~$") || strings.HasPrefix(base, ".")
}

func document(root, name string) (file, error) {
	below, err := filepath.Rel(root, name)
	if err != nil {
		return file{}, err
	}
	data, err := os.ReadFile(name)
	return file{name: filepath.ToSlash(below), data: data}, err
}
