package guide_test

import (
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"
)

func parse(t testing.TB, page string) *html.Node {
	t.Helper()
	root, err := html.Parse(strings.NewReader(page))
	require.NoError(t, err)
	return root
}

// all lists the elements of a page that meet a condition, in document order.
func all(root *html.Node, is func(*html.Node) bool) []*html.Node {
	var out []*html.Node
	for n := range root.Descendants() {
		if n.Type == html.ElementNode && is(n) {
			out = append(out, n)
		}
	}
	return out
}

func tag(names ...string) func(*html.Node) bool {
	return func(n *html.Node) bool { return slices.Contains(names, n.Data) }
}

func class(name string) func(*html.Node) bool {
	return func(n *html.Node) bool { return slices.Contains(strings.Fields(attr(n, "class")), name) }
}

func attr(n *html.Node, key string) string {
	for _, a := range n.Attr {
		if a.Key == key {
			return a.Val
		}
	}
	return ""
}

// byID gives the one element with an id.
func byID(t testing.TB, root *html.Node, id string) *html.Node {
	t.Helper()
	found := all(root, func(n *html.Node) bool { return attr(n, "id") == id })
	require.Len(t, found, 1, "elements with the id %s", id)
	return found[0]
}

// words gives the text of an element with white space collapsed. Blocks are told
// apart by a space.
func words(n *html.Node) string {
	var b strings.Builder
	var walk func(*html.Node)
	walk = func(n *html.Node) {
		if n.Type == html.TextNode {
			b.WriteString(n.Data)
		}
		block := n.Type == html.ElementNode && slices.Contains([]string{"p", "div", "li", "td", "th", "dt", "dd", "ul", "h3", "h4", "span", "i"}, n.Data) && attr(n, "class") != "nb" // which stands within a sentence
		if block {
			b.WriteByte(' ')
		}
		for c := range n.ChildNodes() {
			walk(c)
		}
		if block {
			b.WriteByte(' ')
		}
	}
	walk(n)
	return strings.Join(strings.Fields(b.String()), " ")
}

// rows gives the words of each cell of the table in an element; those behind pictures are left out.
func rows(n *html.Node) [][]string {
	var out [][]string
	for _, tr := range all(n, tag("tr")) {
		if class("small")(tr.Parent.Parent) {
			continue
		}
		var cells []string
		for _, c := range all(tr, tag("th", "td")) {
			cells = append(cells, words(c))
		}
		out = append(out, cells)
	}
	return out
}

// isPage tells pages from what goes with them.
func isPage(name string) bool { return strings.HasSuffix(name, ".html") }

func sorted[V any](by map[string]V) []string { return slices.Sorted(maps.Keys(by)) }

// write puts pages into a folder.
func write(t testing.TB, dir string, pages map[string]string) {
	t.Helper()
	for name, page := range pages {
		file := filepath.Join(dir, filepath.FromSlash(name))
		require.NoError(t, os.MkdirAll(filepath.Dir(file), 0o755))
		require.NoError(t, os.WriteFile(file, []byte(page), 0o644))
	}
}
