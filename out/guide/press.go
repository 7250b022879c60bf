package guide

import (
	"bytes"
	"errors"
	"fmt"
	"html/template"
	"strings"
	"text/template/parse"

	"ferrule/out/tongue"
)

// What a theme may ask of the computer for one page, far above what pages take: our own
// of the demo take 5,000 steps and 90,000 bytes at most. A template of somebody else's may
// go round for ever, or double a text at each turn.
const (
	mostSteps = 2_000_000 // turns of loops, and templates that are called
	mostPage  = 64 << 20  // bytes of a page
	mostText  = 4 << 20   // bytes of what one function makes texts of
	mostVerbs = 64        // in a format, each of which may ask for a million blanks
)

var (
	errSteps = fmt.Errorf("a page takes more than %d steps; does a loop ever end?", mostSteps)
	errPage  = fmt.Errorf("a page is larger than %d MB", mostPage>>20)
	errText  = fmt.Errorf("a text is larger than %d MB", mostText>>20)
)

// press lays pages out, one after another. Where a theme has a hand in it, what a page may
// take is counted; by count and not by time, so that the same input gives the same pages.
type press struct {
	layout  *template.Template
	buffer  bytes.Buffer
	tight   bytes.Buffer // the same with what belongs together kept together
	steps   int
	bounded bool
}

// newPress gives a press for templates that have not been executed.
func newPress(layout *template.Template, bounded bool) (*press, error) {
	p := &press{layout: layout, bounded: bounded}
	if !bounded {
		return p, nil
	}
	own, err := layout.Clone()
	if err != nil {
		return nil, err
	}
	p.layout = own.Funcs(template.FuncMap{"tick": p.tick})
	return p, nil
}

// print gives a page, which holds until the next one.
func (p *press) print(page page) ([]byte, error) {
	p.buffer.Reset()
	p.steps = 0
	if err := p.layout.ExecuteTemplate(p, page.template(), page); err != nil {
		return nil, err
	}
	p.tight.Reset()
	keepTogether(&p.tight, p.buffer.Bytes())
	return p.tight.Bytes(), nil
}

// Write takes what templates write.
func (p *press) Write(text []byte) (int, error) {
	if p.bounded && p.buffer.Len()+len(text) > mostPage {
		return 0, errPage
	}
	return p.buffer.Write(text)
}

// tick counts a step.
func (p *press) tick() (string, error) {
	if p.steps++; p.steps > mostSteps {
		return "", errSteps
	}
	return "", nil
}

// count lets every turn of a loop and every call of a template be counted. A variable is
// set, since nothing that is written would be right everywhere.
func count(layout *template.Template) {
	for _, t := range layout.Templates() {
		if t.Tree == nil || t.Tree.Root == nil {
			continue
		}
		countIn(t.Tree.Root, t.Tree.ParseName)
		t.Tree.Root.Nodes = append([]parse.Node{turn(t.Tree.ParseName, 1)}, t.Tree.Root.Nodes...)
	}
}

func countIn(list *parse.ListNode, file string) {
	if list == nil {
		return
	}
	for _, n := range list.Nodes {
		switch n := n.(type) {
		case *parse.RangeNode:
			countIn(n.List, file)
			countIn(n.ElseList, file)
			n.List.Nodes = append([]parse.Node{turn(file, n.Line)}, n.List.Nodes...)
		case *parse.IfNode:
			countIn(n.List, file)
			countIn(n.ElseList, file)
		case *parse.WithNode:
			countIn(n.List, file)
			countIn(n.ElseList, file)
		}
	}
}

// turn is what counts, on a line of a file, which errors name.
func turn(file string, line int) parse.Node {
	text := strings.Repeat("\n", line-1) + "{{$tick := tick}}"
	trees, err := parse.Parse(file, text, "", "", map[string]any{"tick": errors.New})
	if err != nil {
		panic("guide: turn: " + err.Error())
	}
	nodes := trees[file].Root.Nodes
	return nodes[len(nodes)-1]
}

// boundedFuncs are the functions of templates that make texts of texts, which refuse to make
// large ones.
func boundedFuncs(t *tongue.Tongue) template.FuncMap {
	out := template.FuncMap{"tick": func() string { return "" }}
	for name, f := range map[string]func(...any) string{"print": fmt.Sprint, "println": fmt.Sprintln,
		"html": template.HTMLEscaper, "js": template.JSEscaper, "urlquery": template.URLQueryEscaper} {
		out[name] = func(args ...any) (string, error) { return smaller(args, func() string { return f(args...) }) }
	}
	out["printf"] = bounded(fmt.Sprintf)
	out["say"] = bounded(t.Say)
	out["count"] = func(key string, n int, rest ...any) (string, error) {
		return bounded(func(_ string, rest ...any) string { return t.Count(key, n, rest...) })(key, rest...)
	}
	return out
}

// bounded is a function that fills in a format, which refuses one of many verbs.
func bounded(fill func(format string, args ...any) string) func(format string, args ...any) (string, error) {
	return func(format string, args ...any) (string, error) {
		if strings.Count(format, "%") > mostVerbs {
			return "", fmt.Errorf("a format has more than %d verbs", mostVerbs)
		}
		return smaller(append([]any{format}, args...), func() string { return fill(format, args...) })
	}
}

// smaller makes a text where what it is made of is not too large.
func smaller(args []any, make func() string) (string, error) {
	n := 0
	for _, a := range args {
		if s, ok := a.(string); ok {
			n += len(s)
		}
	}
	if n > mostText {
		return "", errText
	}
	return make(), nil
}
