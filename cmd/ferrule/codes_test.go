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
	for pkg, files := range sources(t) {
		if pkg == "compiler/enumerate" || below(pkg, "cmd/samples") {
			continue // it shares nothing with the program; files have names of their own
		}
		for _, f := range files {
			if strings.HasSuffix(f.path, "_test.go") {
				continue
			}
			parsed, err := parser.ParseFile(token.NewFileSet(), f.path, f.text, 0)
			require.NoError(t, err)
			ast.Inspect(parsed, func(n ast.Node) bool {
				if lit, ok := n.(*ast.BasicLit); ok && lit.Kind == token.STRING {
					if text, err := strconv.Unquote(lit.Value); err == nil && described[text] {
						spelled[text]++
					}
				}
				return true
			})
		}
	}
	for code := range described {
		assert.Equal(t, 1, spelled[code], "how often %s is spelled", code)
	}
}
