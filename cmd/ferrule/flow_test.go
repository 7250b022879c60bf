package main

import (
	"go/ast"
	"go/types"

	"golang.org/x/tools/go/packages"
)

// flow is which functions may run which, through values as well. A node is a function
// (*types.Func), a function literal (*ast.FuncLit), a variable, field or parameter that holds
// functions (*types.Var), or a declaration of variables (*ast.GenDecl). Where it cannot see
// who runs a function value, whoever makes the value does, so that it may show ways that are
// none, and never lacks one.
type flow struct {
	order []any // of nodes that run something, as they were found
	runs  map[any][]edge
	tops  []any              // what nothing that is to be seen runs, and what runs by itself: go
	kept  map[any]bool       // what is given to a call that is cut
	own   map[*types.Var]any // whose parameter it is
	given map[*types.Var][]any
	named []*types.Named // types of ours, for calls through interfaces
	ours  map[*types.Package]bool
	// cut tells of a function that it runs what it is given in a way of its own.
	cut func(*types.Func) bool
}

// edge says that a node runs another one, and what it gives to it.
type edge struct {
	to    any
	gives []gift
}

type gift struct {
	to   *types.Var
	node any
}

// flowOf follows all functions of some packages.
func flowOf(pkgs []*packages.Package, cut func(*types.Func) bool) *flow {
	f := &flow{runs: map[any][]edge{}, kept: map[any]bool{}, own: map[*types.Var]any{}, given: map[*types.Var][]any{}, ours: map[*types.Package]bool{}, cut: cut}
	for _, p := range pkgs {
		f.ours[p.Types] = true
		for _, o := range p.TypesInfo.Defs {
			if t, ok := o.(*types.TypeName); ok {
				if n, ok := t.Type().(*types.Named); ok {
					f.named = append(f.named, n)
				}
			}
		}
	}
	for _, p := range pkgs {
		for _, file := range p.Syntax {
			for _, d := range file.Decls {
				f.declaration(p.TypesInfo, d)
			}
		}
	}
	f.unseen()
	return f
}

// declaration follows one of a file. What initialises variables of a package runs by itself.
func (f *flow) declaration(info *types.Info, d ast.Decl) {
	switch d := d.(type) {
	case *ast.FuncDecl:
		fn := info.Defs[d.Name].(*types.Func)
		f.owns(fn, fn.Signature())
		if d.Name.Name == "main" || d.Name.Name == "init" {
			f.tops = append(f.tops, fn)
		}
		if d.Body != nil {
			f.walk(info, fn, d.Body)
		}
	case *ast.GenDecl:
		f.tops = append(f.tops, d)
		f.walk(info, d, d)
	}
}

// owns notes the parameters of a function that hold functions.
func (f *flow) owns(node any, s *types.Signature) {
	for p := range s.Params().Variables() {
		if holdsFunc(p.Type()) {
			f.own[p] = node
		}
	}
}

// unseen adds functions to the tops that nothing runs: what does is not to be seen from here.
func (f *flow) unseen() {
	known := map[any]bool{}
	for n := range f.kept {
		known[n] = true
	}
	for _, edges := range f.runs {
		for _, e := range edges {
			known[e.to] = true
			for _, g := range e.gives {
				known[g.node] = true
			}
		}
	}
	for _, from := range f.order {
		if fn, ok := from.(*types.Func); ok && !known[fn] {
			f.tops = append(f.tops, fn)
		}
	}
}

func (f *flow) add(from any, e edge) {
	if f.runs[from] == nil {
		f.order = append(f.order, from)
	}
	f.runs[from] = append(f.runs[from], e)
}

// walk follows what the code of one node names, calls and assigns.
func (f *flow) walk(info *types.Info, from any, code ast.Node) {
	ast.Inspect(code, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.FuncLit:
			f.add(from, edge{to: f.literal(info, n)})
			return false
		case *ast.Ident:
			for _, to := range f.nodes(info, n) {
				f.add(from, edge{to: to})
			}
		case *ast.GoStmt:
			f.tops = append(f.tops, f.value(info, from, n.Call.Fun)...)
		case *ast.BinaryExpr:
			if isNil(info, n.Y) { // whether there is one: nothing is run
				return f.value(info, from, n.X) == nil
			}
		case *ast.CallExpr:
			return f.call(info, from, n)
		case *ast.CompositeLit:
			return f.composite(info, from, n)
		case *ast.AssignStmt:
			return f.assign(info, from, n.Lhs, n.Rhs)
		case *ast.ValueSpec:
			names := make([]ast.Expr, len(n.Names))
			for i := range n.Names {
				names[i] = n.Names[i]
			}
			return f.assign(info, from, names, n.Values)
		}
		return true
	})
}

// literal follows a function literal once.
func (f *flow) literal(info *types.Info, n *ast.FuncLit) *ast.FuncLit {
	if f.runs[n] == nil {
		f.owns(n, info.TypeOf(n).(*types.Signature))
		f.walk(info, n, n.Body)
	}
	return n
}

// call follows a call of a function that is named. What it is given goes into its parameters.
func (f *flow) call(info *types.Info, from any, c *ast.CallExpr) bool {
	fn := callee(info, c)
	if fn != nil && fn.FullName() == "(*sync.WaitGroup).Go" {
		f.tops = append(f.tops, f.value(info, from, c.Args[0])...)
	}
	if fn == nil || !f.cut(fn) && !f.ours[fn.Pkg()] {
		return true
	}
	if sel, ok := ast.Unparen(c.Fun).(*ast.SelectorExpr); ok {
		f.walk(info, from, sel.X)
	}
	e := edge{to: fn}
	for i, arg := range c.Args {
		e.gives = append(e.gives, f.gives(info, from, fn, i, arg)...)
	}
	f.add(from, e)
	return false
}

// gives follows one argument.
func (f *flow) gives(info *types.Info, from any, fn *types.Func, i int, arg ast.Expr) (out []gift) {
	params := fn.Signature().Params()
	p := params.At(min(i, params.Len()-1))
	nodes := f.value(info, from, arg)
	switch {
	case nodes == nil:
		f.walk(info, from, arg)
	case f.cut(fn):
		for _, n := range nodes {
			f.kept[n] = true
		}
	case !holdsFunc(p.Type()):
		f.into(from, p, nodes)
	default:
		for _, n := range nodes {
			f.given[p] = append(f.given[p], n)
			out = append(out, gift{p, n})
		}
	}
	return out
}

// composite follows the fields of a struct literal that hold functions.
func (f *flow) composite(info *types.Info, from any, c *ast.CompositeLit) bool {
	t := info.TypeOf(c)
	if p, ok := t.Underlying().(*types.Pointer); ok {
		t = p.Elem()
	}
	s, ok := t.Underlying().(*types.Struct)
	if !ok {
		return true
	}
	for i, e := range c.Elts {
		if kv, ok := e.(*ast.KeyValueExpr); ok {
			f.put(info, from, variable(info, kv.Key), kv.Value)
			continue
		}
		f.put(info, from, s.Field(i), e)
	}
	return false
}

// assign follows functions into variables.
func (f *flow) assign(info *types.Info, from any, to, what []ast.Expr) bool {
	if len(to) != len(what) {
		return true
	}
	for i, e := range what {
		f.put(info, from, variable(info, to[i]), e)
		switch x := to[i].(type) {
		case *ast.Ident:
		case *ast.SelectorExpr:
			f.walk(info, from, x.X)
		default:
			f.walk(info, from, x)
		}
	}
	return false
}

// put follows a value into a variable; nil is one that is not known.
func (f *flow) put(info *types.Info, from any, v *types.Var, e ast.Expr) {
	if nodes := f.value(info, from, e); nodes != nil && v != nil {
		f.into(from, v, nodes)
		return
	}
	f.walk(info, from, e)
}

// into notes functions as what a variable holds; from runs them where it may hold others too.
func (f *flow) into(from any, v *types.Var, nodes []any) {
	if holdsFunc(v.Type()) {
		from = v.Origin()
	}
	for _, n := range nodes {
		f.add(from, edge{to: n})
	}
}
