// Command samples makes the workbooks of the sample catalogues from their texts, and the
// demo's pictures:
//
//	go run ./cmd/samples [-C testdata]
//
// Each folder that has texts in source/*.txtar gets the workbooks that they describe.
// The texts are what people edit; a test holds the workbooks against them.
package main

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"

	"ferrule/cmd/samples/picture"
	"ferrule/out/aid"
	"ferrule/out/markup"
)

func main() {
	root := flag.String("C", "testdata", "the folder that holds the catalogues")
	flag.Parse()
	if err := run(*root); err != nil {
		fmt.Fprintln(os.Stderr, "samples:", err)
		os.Exit(1)
	}
}

// catalogues lists the folders under the root that are made from texts.
func catalogues() []string { return []string{"demo", "faulty", "existing"} }

func run(root string) error {
	for _, name := range catalogues() {
		dir := filepath.Join(root, name)
		books, err := read(dir)
		if err != nil {
			return err
		}
		if err := aid.Write(dir, books); err != nil {
			return err
		}
		for _, b := range books {
			fmt.Println(filepath.Join(dir, b.Name))
		}
	}
	return draw(filepath.Join(root, pictures))
}

// pictures is the folder of the demo's pictures, below the root.
const pictures = "demo/pictures"

func draw(dir string) error {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	for _, name := range picture.Names() {
		data, err := picture.Draw(name)
		if err != nil {
			return err
		}
		file := filepath.Join(dir, name)
		if err := os.WriteFile(file, data, 0o644); err != nil {
			return err
		}
		fmt.Println(file)
	}
	return nil
}

// read gives the workbooks that the texts of one catalogue describe.
func read(dir string) ([]markup.Book, error) {
	files, err := filepath.Glob(filepath.Join(dir, "source", "*.txtar"))
	if err != nil {
		return nil, err
	}
	if len(files) == 0 {
		return nil, fmt.Errorf("%s has no texts in source/*.txtar", dir)
	}
	var all []markup.Book
	for _, f := range files {
		text, err := os.ReadFile(f)
		if err != nil {
			return nil, err
		}
		books, err := markup.Books(text)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", f, err)
		}
		all = append(all, books...)
	}
	return all, nil
}
