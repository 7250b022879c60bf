package aid

import (
	"fmt"
	"os"
	"path/filepath"

	"ferrule/compiler/intake"
	"ferrule/out/markup"
)

// Write writes workbooks into a folder, which exists, each under its name, with all that helps to fill them in.
func Write(dir string, books []markup.Book) error {
	if err := markup.WriteAll(dir, books, markup.Options{}); err != nil {
		return err
	}
	var paths []string
	for _, b := range books {
		paths = append(paths, filepath.Join(dir, b.Name))
	}
	src, err := intake.Find(paths)
	if err != nil {
		return err
	}
	by := map[string]string{}
	for _, b := range src.Books {
		by[b.Name] = b.Path
	}
	for _, b := range Copies(src, func(name string) ([]byte, error) { return os.ReadFile(by[name]) }) {
		if b.Err != nil {
			return fmt.Errorf("%s: %w", b.Name, b.Err)
		}
		if err := os.WriteFile(by[b.Name], b.Bytes, 0o644); err != nil {
			return err
		}
	}
	return nil
}
