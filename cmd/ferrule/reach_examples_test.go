package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"go/types"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/tools/go/packages"
)

// small is what each program of the test below begins with.
const small = `package main
type spent struct{}
func spend() { panic(spent{}) }
func try(f func()) { defer func() { _ = recover() }(); f() }
func each(n int, f func(int)) { for i := range n { f(i) } }
func within(f func(int)) { try(func() { f(1) }) }
func idle(int) {}
func spends(int) { spend() }
type check struct{ run func(); name string }
type doer interface{ do() }
type some struct{ f func() }
func (some) do() { spend() }
func (s *some) keep(f func()) { s.f = f }
`

func TestReach(t *testing.T) {
	for name, c := range map[string]struct {
		code    string
		escapes bool
	}{
		"called":                       {`func main() { spend() }`, true},
		"inside":                       {`func main() { try(spend); try(func() { spend() }) }`, false},
		"before":                       {`func main() { spend(); try(func() {}) }`, true},
		"in a literal":                 {`func main() { f := func() { spend() }; f() }`, true},
		"a variable, inside":           {`func main() { f := spend; try(f) }`, false},
		"given to one that runs it":    {`func main() { each(2, spends) }`, true},
		"given by another":             {`func main() { each(2, idle); try(func() { each(2, spends) }) }`, false},
		"given to one that tries":      {`func main() { within(spends) }`, false},
		"given on":                     {`func on(f func(int)) { each(1, f) }; func main() { on(spends) }`, true},
		"given on, tried":              {`func on(f func(int)) { within(f) }; func main() { on(spends) }`, false},
		"captured":                     {`func on(f func(int)) { each(1, func(i int) { f(i) }) }; func main() { on(spends) }`, true},
		"a field":                      {`func main() { c := check{run: spend}; c.run() }`, true},
		"a field, by place":            {`func main() { c := []*check{{spend, "x"}}; c[0].run() }`, true},
		"a field, inside":              {`var all = []check{{run: spend}}; func main() { for _, c := range all { if c.run != nil { try(func() { c.run() }) } } }`, false},
		"a field, as a value":          {`func main() { c := check{run: spend}; try(c.run) }`, false},
		"kept, and run elsewhere":      {`func main() { s := &some{}; s.keep(spend); s.f() }`, true},
		"kept, and run inside":         {`func main() { s := &some{}; s.keep(spend); try(func() { s.f() }) }`, false},
		"an interface":                 {`func main() { var d doer = some{}; d.do() }`, true},
		"an interface, inside":         {`func main() { var d doer = some{}; try(d.do) }`, false},
		"returned":                     {`func make() func() { return func() { spend() } }; func main() { make()() }`, true},
		"in a list":                    {`func main() { for _, f := range []func(){spend} { f() } }`, true},
		"beside, though begun inside":  {`func main() { try(func() { go func() { spend() }() }) }`, true},
		"at the beginning":             {`func one() int { spend(); return 1 }; var x = one(); func main() {}`, true},
		"by nobody":                    {`func Lone() { spend() }; func main() {}`, true},
		"deferred":                     {`func main() { defer spend() }`, true},
		"a generic function":           {`func all[T any](xs []T, f func(T)) { for _, x := range xs { f(x) } }; func main() { all([]int{1}, spends) }`, true},
		"a generic function, inside":   {`func all[T any](xs []T, f func(T)) { try(func() { f(xs[0]) }) }; func main() { all[int]([]int{1}, spends) }`, false},
		"several":                      {`func all(fs ...func()) { fs[0]() }; func main() { all(spend) }`, true},
		"what an argument is made of":  {`func one() int { spend(); return 1 }; func main() { each(one(), idle) }`, true},
		"what makes what is given":     {`func one() func() { spend(); return func() {} }; func main() { try(one()) }`, true},
		"what a value is picked from":  {`func one() *some { spend(); return &some{} }; func main() { try(one().do) }`, true},
		"a parameter that is replaced": {`func on(f func(int)) { f = spends; f(1) }; func main() { on(idle) }`, true},
	} {
		t.Run(name, func(t *testing.T) {
			p := program(t, small+c.code)
			spent := declared(p, func(_ *types.Info, fn *ast.FuncDecl) bool { return fn.Name.Name == "spend" })
			r := reachOf(flowOf(p, func(fn *types.Func) bool { return fn.Name() == "try" }), spent)
			escapes := false
			for _, way := range r.ways() {
				top := called(p[0].Fset, way[0])
				escapes = escapes || top != "main.spends" && top != "(main.some).do" && top != "main.spend"
				assert.Equal(t, "main.spend", called(p[0].Fset, way[len(way)-1]))
			}
			assert.Equal(t, c.escapes, escapes)
		})
	}
}

func program(t *testing.T, code string) []*packages.Package {
	fset := token.NewFileSet()
	file, err := parser.ParseFile(fset, "main.go", code, parser.SkipObjectResolution)
	require.NoError(t, err)
	info := &types.Info{Types: map[ast.Expr]types.TypeAndValue{}, Defs: map[*ast.Ident]types.Object{}, Uses: map[*ast.Ident]types.Object{}, Selections: map[*ast.SelectorExpr]*types.Selection{}}
	pkg, err := new(types.Config).Check("main", fset, []*ast.File{file}, info)
	require.NoError(t, err)
	return []*packages.Package{{Fset: fset, Types: pkg, TypesInfo: info, Syntax: []*ast.File{file}}}
}
