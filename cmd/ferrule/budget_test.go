package main

import (
	"go/ast"
	"go/token"
	"go/types"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/tools/go/packages"
)

const spacePath = module + "/compiler/space"

// TestBudget holds that nothing which may use up the budget of a space runs but inside Try,
// so that a platform which is too irregular is told and never ends the program; and that
// what is exported says of itself that it runs there.
//
// No type holds this: regions stay with platforms, places and checks from one Try to the
// next, so a value that Try hands out would be stored beside them, and would have to be
// handed through some 120 functions until then.
func TestBudget(t *testing.T) {
	pkgs, err := packages.Load(&packages.Config{Dir: "../..", Mode: packages.LoadSyntax}, "./...")
	require.NoError(t, err)
	require.Zero(t, packages.PrintErrors(pkgs))
	spent := declared(pkgs, mayPanic)
	require.NotEmpty(t, spent, "nothing panics with what Try recovers")
	r := reachOf(flowOf(pkgs, isTry), spent)

	for _, way := range r.ways() {
		if fn, ok := way[0].(*types.Func); ok && fn.Pkg().Path() == spacePath {
			continue // nothing but tests uses it
		}
		assert.Fail(t, "a budget may be used up outside Try", chain(pkgs[0].Fset, way))
	}
	says := declared(pkgs, saysSo)
	assert.NotEmpty(t, says)
	for _, n := range r.order {
		if fn, ok := n.(*types.Func); ok && fn.Exported() && fn.Pkg().Path() != spacePath && r.of[fn][end{}] {
			assert.True(t, says[fn], "%s makes regions; write that it runs inside Try", fn.FullName())
		}
	}
	for n := range says {
		assert.True(t, r.of[n][end{}], "%s makes no region, and says that it runs inside Try", called(pkgs[0].Fset, n))
	}
}

// declared gives the functions of which something holds.
func declared(pkgs []*packages.Package, holds func(*types.Info, *ast.FuncDecl) bool) map[any]bool {
	out := map[any]bool{}
	for _, p := range pkgs {
		for _, file := range p.Syntax {
			for _, d := range file.Decls {
				if fn, ok := d.(*ast.FuncDecl); ok && holds(p.TypesInfo, fn) {
					out[p.TypesInfo.Defs[fn.Name]] = true
				}
			}
		}
	}
	return out
}

// mayPanic tells whether a function panics with what Try recovers.
func mayPanic(info *types.Info, fn *ast.FuncDecl) (found bool) {
	ast.Inspect(fn, func(n ast.Node) bool {
		c, ok := n.(*ast.CompositeLit)
		found = found || ok && info.TypeOf(c).String() == spacePath+".spent"
		return true
	})
	return found
}

func saysSo(_ *types.Info, fn *ast.FuncDecl) bool {
	return strings.Contains(strings.ToLower(strings.Join(strings.Fields(fn.Doc.Text()), " ")), "it runs inside try")
}

func isTry(fn *types.Func) bool { return fn.FullName() == "(*"+spacePath+".Space).Try" }

func chain(fset *token.FileSet, way []any) string {
	var out []string
	for _, n := range way {
		out = append(out, called(fset, n))
	}
	return strings.Join(out, "\nruns ")
}
