package guide

import (
	"go/ast"
	"go/parser"
	"go/token"
	"maps"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"text/template/parse"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/out/tongue"
)

// saidKeys is where texts are said: by key, the places.
type saidKeys map[string][]string

// TestEveryWordIsSpoken holds what templates, scripts and this package say against the words of every
// language: none is missing, none is left over, verbs are the same, and where a text is put together
// of pieces they stand in the same order.
func TestEveryWordIsSpoken(t *testing.T) {
	keys, pieces := saidKeys{}, map[string]bool{}
	ofTemplates(t, keys, pieces)
	ofGo(t, keys, pieces)
	for _, k := range scriptWords() {
		keys[k] = append(keys[k], "scripts")
	}
	require.Greater(t, len(keys), 100, "texts were found")
	for _, language := range tongue.Languages()[1:] {
		words := tongue.Catalogue(language)
		for key, at := range keys {
			p, ok := words[key]
			if !assert.True(t, ok, "%s lacks %q, which %s says", language, key, at[0]) {
				continue
			}
			assert.NotEmpty(t, p.Text, "%s: %q", language, key)
			for _, form := range []string{p.Text, p.One} {
				if form == "" {
					continue
				}
				assert.Equal(t, verbsOf(key), verbsOf(form), "%s: the verbs of %q", language, key)
				if pieces[key] {
					assert.NotContains(t, form, "%[", "%s: pages put markup into %q, in the order of its verbs", language, key)
				}
			}
		}
		for key := range words {
			assert.NotEmpty(t, keys[key], "nothing says %q, for which %s has words", key, language)
		}
	}
	for key := range tongue.Catalogue("en") {
		assert.NotEmpty(t, keys[key], "nothing says %q", key)
	}
}

var verbs = regexp.MustCompile(`%(?:\[(\d+)\])?([a-z])`)

// verbsOf gives the verbs of a text in the order of what they stand for.
func verbsOf(text string) []string {
	by := map[int]string{}
	for i, m := range verbs.FindAllStringSubmatch(text, -1) {
		at := i + 1
		if m[1] != "" {
			at, _ = strconv.Atoi(m[1])
		}
		by[at] = m[2]
	}
	var out []string
	for _, at := range slices.Sorted(maps.Keys(by)) {
		out = append(out, strconv.Itoa(at)+by[at])
	}
	return out
}

// ofTemplates gathers the texts that templates say: what say, piece and count are given, what the last
// of a list stands behind, and what is kept in a variable until then.
func ofTemplates(t *testing.T, keys saidKeys, pieces map[string]bool) {
	e := &edition{tongue: tongue.English()}
	layout, err := (*Theme)(nil).layout((*Theme)(nil).assets(false), e)
	require.NoError(t, err)
	for _, tm := range layout.Templates() {
		if tm.Tree == nil || tm.Tree.Root == nil {
			continue
		}
		walkNodes(tm.Tree.Root, func(p *parse.PipeNode) {
			for _, c := range p.Cmds {
				name := ""
				if id, ok := c.Args[0].(*parse.IdentifierNode); ok {
					name = id.Ident
				}
				at := 1
				switch {
				case name == "sep":
					at = 3
				case len(p.Decl) > 0 && name == "":
					at = 0
				case name != "say" && name != "piece" && name != "count":
					continue
				}
				if text, ok := c.Args[at].(*parse.StringNode); ok {
					keys[text.Text] = append(keys[text.Text], tm.Name())
					pieces[text.Text] = pieces[text.Text] || name == "piece" || len(p.Decl) > 0
				}
			}
		})
	}
}

func walkNodes(n parse.Node, pipe func(*parse.PipeNode)) {
	branch := func(p *parse.PipeNode, list, other *parse.ListNode) {
		pipe(p)
		walkNodes(list, pipe)
		if other != nil {
			walkNodes(other, pipe)
		}
	}
	switch n := n.(type) {
	case *parse.ListNode:
		for _, c := range n.Nodes {
			walkNodes(c, pipe)
		}
	case *parse.ActionNode:
		pipe(n.Pipe)
	case *parse.IfNode:
		branch(n.Pipe, n.List, n.ElseList)
	case *parse.WithNode:
		branch(n.Pipe, n.List, n.ElseList)
	case *parse.RangeNode:
		branch(n.Pipe, n.List, n.ElseList)
	}
}

// ofGo gathers the texts that Go sources here and in package tongue say.
func ofGo(t *testing.T, keys saidKeys, pieces map[string]bool) {
	files, err := filepath.Glob("*.go")
	require.NoError(t, err)
	own, err := filepath.Glob("../tongue/*.go")
	require.NoError(t, err)
	for _, file := range append(files, own...) {
		if strings.HasSuffix(file, "_test.go") {
			continue
		}
		tree, err := parser.ParseFile(token.NewFileSet(), file, nil, 0)
		require.NoError(t, err)
		ast.Inspect(tree, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.CallExpr:
				name := nameOf(n.Fun)
				if len(n.Args) > 0 && slices.Contains([]string{"Say", "say", "Count", "Piece", "Key"}, name) {
					keepText(keys, pieces, n.Args[0], file, name == "Piece" || name == "Key")
				}
				if _, method := n.Fun.(*ast.SelectorExpr); method && name == "list" && len(n.Args) == 2 {
					keepText(keys, pieces, n.Args[1], file, false)
				}
			case *ast.RangeStmt: // texts of which each is said
				if l, ok := n.X.(*ast.CompositeLit); ok && saysEach(n) {
					for _, text := range l.Elts {
						keepText(keys, pieces, text, file, false)
					}
				}
			}
			return true
		})
	}
}

func nameOf(f ast.Expr) string {
	switch f := f.(type) {
	case *ast.Ident:
		return f.Name
	case *ast.SelectorExpr:
		return f.Sel.Name
	}
	return ""
}

// saysEach tells whether a loop says what it goes through.
func saysEach(loop *ast.RangeStmt) bool {
	value, ok := loop.Value.(*ast.Ident)
	found := false
	ast.Inspect(loop.Body, func(n ast.Node) bool {
		if c, is := n.(*ast.CallExpr); is && ok && nameOf(c.Fun) == "Say" && len(c.Args) > 0 && nameOf(c.Args[0]) == value.Name {
			found = true
		}
		return true
	})
	return found
}

func keepText(keys saidKeys, pieces map[string]bool, text ast.Expr, file string, piece bool) {
	l, ok := text.(*ast.BasicLit)
	if !ok || l.Kind != token.STRING {
		return
	}
	key, err := strconv.Unquote(l.Value)
	if err == nil {
		keys[key] = append(keys[key], file)
		pieces[key] = pieces[key] || piece
	}
}
