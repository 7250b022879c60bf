package guide_test

import (
	"fmt"
	"go/ast"
	"go/doc"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/out/guide"
)

// themePage documents what templates are given. What stands below its mark is made from
// the Go structs and their comments.
const (
	themePage = "../../schema/THEME.md"
	themeMark = "<!-- What follows is made by `go test ./out/guide -run TestThemePage -update`. -->\n"
)

// TestThemePage fails where the page does not say what the structs are.
func TestThemePage(t *testing.T) {
	text, err := os.ReadFile(themePage)
	require.NoError(t, err)
	prose, made, found := strings.Cut(string(text), themeMark)
	require.True(t, found, "the mark has gone from %s", themePage)
	want := themeTypes(t)
	if *update {
		require.NoError(t, os.WriteFile(themePage, []byte(prose+themeMark+want), 0o644))
		return
	}
	assert.Equal(t, want, made, "%s: go test -update renews it", themePage)
	for _, name := range guide.ThemeFiles() {
		assert.Contains(t, prose, "`"+name+"`", "the page says nothing of a file")
	}
}

// themeTypes writes a table of fields for each page and for each type that can be reached
// from them, in the order in which a reader meets them.
func themeTypes(t *testing.T) string {
	d := docs(t)
	var out strings.Builder
	seen := map[reflect.Type]bool{}
	var queue []reflect.Type
	reach := func(at reflect.Type) {
		for at.Kind() == reflect.Pointer || at.Kind() == reflect.Slice {
			at = at.Elem()
		}
		if at.Kind() == reflect.Struct && strings.HasSuffix(at.PkgPath(), "out/guide") && !seen[at] {
			seen[at] = true
			queue = append(queue, at)
		}
	}
	out.WriteString("\n## The pages\n")
	for template, page := range guide.TemplatePages() {
		at := reflect.TypeOf(page).Elem()
		fmt.Fprintf(&out, "\n### `%s`\n\n%s\n\n", template, d.types[at.Name()])
		seen[at] = true
		d.table(t, &out, at, reach)
	}
	out.WriteString("\n## What they are made of\n")
	for len(queue) > 0 {
		at := queue[0]
		queue = queue[1:]
		fmt.Fprintf(&out, "\n### %s\n\n%s\n\n", at.Name(), d.types[at.Name()])
		d.table(t, &out, at, reach)
	}
	return out.String()
}

// comments are those of the package's types, of their fields and methods.
type comments struct {
	types  map[string]string
	fields map[string]string // Type.Field and Type.Method
}

func docs(t *testing.T) *comments {
	t.Helper()
	c := &comments{map[string]string{}, map[string]string{}}
	files, err := filepath.Glob("*.go")
	require.NoError(t, err)
	set := token.NewFileSet()
	var parsed []*ast.File
	for _, name := range files {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		f, err := parser.ParseFile(set, name, nil, parser.ParseComments)
		require.NoError(t, err)
		parsed = append(parsed, f)
	}
	pkg, err := doc.NewFromFiles(set, parsed, "ferrule/out/guide", doc.AllDecls|doc.PreserveAST)
	require.NoError(t, err)
	for _, at := range pkg.Types {
		c.types[at.Name] = line(at.Doc)
		for _, m := range at.Methods {
			c.fields[at.Name+"."+m.Name] = line(m.Doc)
		}
		for _, spec := range at.Decl.Specs {
			s, ok := spec.(*ast.TypeSpec).Type.(*ast.StructType)
			if !ok {
				continue
			}
			above := ""
			for _, f := range s.Fields.List {
				text := line(f.Comment.Text())
				if f.Doc != nil {
					above = line(f.Doc.Text())
					text = line(above + " " + text)
				}
				for _, name := range f.Names {
					c.fields[spec.(*ast.TypeSpec).Name.Name+"."+name.Name] = text
				}
			}
		}
	}
	return c
}

// line is a comment on one line, fit for a table of a page for people who write no Go.
func line(text string) string {
	words := strings.Join(strings.Fields(text), " ")
	return strings.NewReplacer("|", "\\|", "nil", "nothing").Replace(words)
}

// table writes the exported fields and methods of a type.
func (c *comments) table(t *testing.T, out *strings.Builder, at reflect.Type, reach func(reflect.Type)) {
	t.Helper()
	out.WriteString("| field | type | |\n| --- | --- | --- |\n")
	row := func(name string, of reflect.Type) {
		fmt.Fprintf(out, "| `%s` | %s | %s |\n", name, typeName(of), c.fields[at.Name()+"."+name])
		reach(of)
	}
	for i := range at.NumField() {
		f := at.Field(i)
		switch {
		case f.Anonymous:
			fmt.Fprintf(out, "| | | all fields of %s |\n", typeName(f.Type))
			reach(f.Type)
		case f.IsExported():
			row(f.Name, f.Type)
		}
	}
	for i := range at.NumMethod() {
		m := at.Method(i)
		require.Equal(t, 1, m.Type.NumIn(), "%s.%s takes arguments", at.Name(), m.Name)
		row(m.Name, m.Type.Out(0))
	}
}

// typeName says a type as people do who write templates.
func typeName(at reflect.Type) string {
	switch at.Kind() {
	case reflect.Pointer:
		return typeName(at.Elem()) + ", or nothing"
	case reflect.Slice:
		return "list of " + typeName(at.Elem())
	case reflect.String:
		return "text"
	case reflect.Bool:
		return "yes or no"
	case reflect.Int:
		return "number"
	case reflect.Struct:
		if strings.HasSuffix(at.PkgPath(), "out/guide") {
			return "[" + at.Name() + "](#" + strings.ToLower(at.Name()) + ")"
		}
		return "`" + at.String() + "`"
	}
	return "`" + at.String() + "`"
}
