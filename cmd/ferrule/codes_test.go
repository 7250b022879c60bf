package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/kinds"
)

// TestCodesAreSpelledOnce holds that the constants in compiler/finding are all the codes
// that there are, and that nothing of the program spells one a second time.
func TestCodesAreSpelledOnce(t *testing.T) {
	described, spelled := map[string]bool{}, map[string]int{}
	for _, k := range kinds.All() {
		described[string(k.Code)] = true
	}
	eachText(t, func(_, text string) {
		if described[text] {
			spelled[text]++
		}
	})
	for code := range described {
		assert.Equal(t, 1, spelled[code], "how often %s is spelled", code)
	}
}

// eachText calls f with every text that the program spells and the package that does.
// The tags of fields are none.
func eachText(t *testing.T, f func(pkg, text string)) {
	t.Helper()
	for pkg, files := range sources(t) {
		if pkg == "compiler/enumerate" || below(pkg, "cmd/samples") {
			continue // it shares nothing with the program; files have names of their own
		}
		for _, file := range files {
			if strings.HasSuffix(file.path, "_test.go") {
				continue
			}
			parsed, err := parser.ParseFile(token.NewFileSet(), file.path, file.text, 0)
			require.NoError(t, err)
			ast.Inspect(parsed, func(n ast.Node) bool {
				switch n := n.(type) {
				case *ast.Field:
					n.Tag = nil
				case *ast.BasicLit:
					if text, err := strconv.Unquote(n.Value); err == nil && n.Kind == token.STRING {
						f(pkg, text)
					}
				}
				return true
			})
		}
	}
}
