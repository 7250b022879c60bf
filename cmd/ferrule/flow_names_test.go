package main

import (
	"go/ast"
	"go/token"
	"go/types"
)

// nodes gives what a name means: a function, those of all types of ours where it is a method
// of an interface, or a variable that holds functions.
func (f *flow) nodes(info *types.Info, id *ast.Ident) []any {
	switch o := info.Uses[id].(type) {
	case *types.Func:
		if recv := o.Signature().Recv(); recv == nil || !types.IsInterface(recv.Type()) {
			return []any{o.Origin()}
		}
		return f.methods(o)
	case *types.Var:
		if holdsFunc(o.Type()) {
			return []any{o.Origin()}
		}
	}
	return nil
}

// methods gives the methods of all types of ours that have the name of one.
func (f *flow) methods(of *types.Func) (out []any) {
	for _, n := range f.named {
		if types.IsInterface(n) {
			continue
		}
		o, _, _ := types.LookupFieldOrMethod(types.NewPointer(n), true, of.Pkg(), of.Name())
		if m, ok := o.(*types.Func); ok {
			out = append(out, m.Origin())
		}
	}
	return out
}

// value gives the nodes that an expression is, nil where it is no plain name of one.
func (f *flow) value(info *types.Info, from any, e ast.Expr) []any {
	switch e := ast.Unparen(e).(type) {
	case *ast.FuncLit:
		return []any{f.literal(info, e)}
	case *ast.SelectorExpr:
		nodes := f.nodes(info, e.Sel)
		if nodes != nil {
			f.walk(info, from, e.X)
		}
		return nodes
	case *ast.Ident:
		return f.nodes(info, e)
	}
	return nil
}

func isNil(info *types.Info, e ast.Expr) bool {
	tv, ok := info.Types[e]
	return ok && tv.IsNil()
}

// callee gives the function that a call names, nil for a value or a method of an interface.
func callee(info *types.Info, c *ast.CallExpr) *types.Func {
	e := ast.Unparen(c.Fun)
	switch x := e.(type) {
	case *ast.IndexExpr:
		e = x.X
	case *ast.IndexListExpr:
		e = x.X
	}
	fn, _ := info.Uses[named(e)].(*types.Func)
	if fn == nil || fn.Signature().Recv() != nil && types.IsInterface(fn.Signature().Recv().Type()) {
		return nil
	}
	return fn.Origin()
}

// variable gives the variable or the field that is assigned to, nil for others.
func variable(info *types.Info, e ast.Expr) *types.Var {
	if id := named(ast.Unparen(e)); id != nil {
		v, _ := info.ObjectOf(id).(*types.Var)
		return v
	}
	return nil
}

// named gives the name that an expression is or ends with, nil where it is none.
func named(e ast.Expr) *ast.Ident {
	switch e := e.(type) {
	case *ast.Ident:
		return e
	case *ast.SelectorExpr:
		return e.Sel
	}
	return nil
}

func holdsFunc(t types.Type) bool {
	_, ok := t.Underlying().(*types.Signature)
	return ok
}

// called names a node for a message.
func called(fset *token.FileSet, n any) string {
	switch n := n.(type) {
	case *types.Func:
		return n.FullName()
	case *types.Var:
		return n.Name() + " at " + fset.Position(n.Pos()).String()
	case ast.Node:
		return "what stands at " + fset.Position(n.Pos()).String()
	}
	return ""
}
