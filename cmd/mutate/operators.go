package main

import (
	"go/ast"
	"go/token"
	"strconv"
)

// visitor finds sites in the syntax of a file.
type visitor struct {
	text   string
	offset func(token.Pos) int
	add    func(operator string, start, end int, after string)
}

// nothing stands in place of a statement that is taken out.
const nothing = "{}"

// swaps says what each operator of two operands is changed to, and what that is called.
func swaps() map[token.Token][][2]string {
	const bound, flip = "bound", "flip"
	return map[token.Token][][2]string{
		token.LSS:  {{bound, "<="}, {flip, ">="}},
		token.LEQ:  {{bound, "<"}, {flip, ">"}},
		token.GTR:  {{bound, ">="}, {flip, "<="}},
		token.GEQ:  {{bound, ">"}, {flip, "<"}},
		token.EQL:  {{flip, "!="}},
		token.NEQ:  {{flip, "=="}},
		token.LAND: {{"and/or", "||"}},
		token.LOR:  {{"and/or", "&&"}},
		token.ADD:  {{"plus/minus", "-"}},
		token.SUB:  {{"plus/minus", "+"}},
	}
}

func (v *visitor) visit(n ast.Node) bool {
	switch n := n.(type) {
	case *ast.GenDecl:
		return n.Tok != token.IMPORT
	case *ast.BinaryExpr:
		for _, s := range swaps()[n.Op] {
			start := v.offset(n.OpPos)
			v.add(s[0], start, start+len(n.Op.String()), s[1])
		}
	case *ast.UnaryExpr:
		if n.Op == token.NOT {
			v.replace("negation", n, v.of(n.X))
		}
	case *ast.Ident:
		v.truth(n)
	case *ast.BasicLit:
		v.constant(n)
	case *ast.IfStmt:
		v.replace("condition", n.Cond, "!("+v.of(n.Cond)+")")
		v.leaving(n.Body.List)
	case *ast.CaseClause:
		v.leaving(n.Body)
	case ast.Stmt:
		v.statement(n)
	}
	return true
}

func (v *visitor) of(n ast.Node) string { return v.text[v.offset(n.Pos()):v.offset(n.End())] }

func (v *visitor) replace(operator string, n ast.Node, after string) {
	v.add(operator, v.offset(n.Pos()), v.offset(n.End()), after)
}

func (v *visitor) truth(n *ast.Ident) {
	switch n.Name {
	case "true":
		v.replace("truth", n, "false")
	case "false":
		v.replace("truth", n, "true")
	}
}

func (v *visitor) constant(n *ast.BasicLit) {
	if n.Kind != token.INT {
		return
	}
	if i, err := strconv.ParseInt(n.Value, 0, 64); err == nil {
		v.replace("constant", n, strconv.FormatInt(i+1, 10))
		v.replace("constant", n, strconv.FormatInt(i-1, 10))
	}
}

// leaving takes out the return that ends a branch.
func (v *visitor) leaving(body []ast.Stmt) {
	if len(body) == 0 {
		return
	}
	if last, ok := body[len(body)-1].(*ast.ReturnStmt); ok {
		v.replace("return", last, nothing)
	}
}

// statement takes a statement out, or changes which way it jumps.
func (v *visitor) statement(n ast.Stmt) {
	switch n := n.(type) {
	case *ast.ExprStmt:
		v.replace("call", n, nothing)
	case *ast.IncDecStmt:
		v.replace("statement", n, nothing)
	case *ast.AssignStmt:
		switch {
		case n.Tok == token.DEFINE:
		case appends(n):
			v.replace("append", n, nothing)
		default:
			v.replace("statement", n, nothing)
		}
	case *ast.BranchStmt:
		switch n.Tok {
		case token.CONTINUE:
			v.replace("jump", n, nothing)
			v.add("jump", v.offset(n.Pos()), v.offset(n.Pos())+len("continue"), "break")
		case token.BREAK:
			v.replace("jump", n, nothing)
		}
	}
}

func appends(n *ast.AssignStmt) bool {
	if len(n.Rhs) != 1 {
		return false
	}
	call, ok := n.Rhs[0].(*ast.CallExpr)
	if !ok {
		return false
	}
	name, ok := call.Fun.(*ast.Ident)
	return ok && name.Name == "append"
}
