package guide_test

import (
	"bytes"
	"compress/gzip"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"

	"ferrule/compiler/tidy"
	"ferrule/out/guide"
)

// largest compiles one platform of tidy catalogues: of 320 platforms (eight catalogues with
// faults and eight without, 20 platforms each) its page is the largest.
func largest(t *testing.T) *sample {
	t.Helper()
	return compiled(t, only(tidy.Faultless(8, 20), "D29"))
}

// only leaves out what sheets say of other platforms.
func only(sheets []tidy.Sheet, platform string) []tidy.Sheet {
	var out []tidy.Sheet
	for _, s := range sheets {
		if at := slices.Index(s.Rows[0], "Platform"); at >= 0 {
			s.Rows = slices.DeleteFunc(s.Rows, func(r []string) bool { return r[at] != platform && r[at] != "Platform" })
		}
		if len(s.Rows) > 1 {
			out = append(out, s)
		}
	}
	return out
}

// sent is how many bytes of a page are sent, compressed as servers do.
func sent(t *testing.T, page string) int {
	t.Helper()
	var b bytes.Buffer
	w, err := gzip.NewWriterLevel(&b, 6)
	require.NoError(t, err)
	_, err = w.Write([]byte(page))
	require.NoError(t, err)
	require.NoError(t, w.Close())
	return b.Len()
}

func TestLargestTidyPageIsSmall(t *testing.T) {
	page := largest(t).pages(t, guide.Options{})["platforms/d29.html"]
	require.Len(t, all(parse(t, page), class("place")), 17)
	t.Logf("%d bytes, %d sent", len(page), sent(t, page))
	assert.Less(t, len(page), 401_000)
	assert.Less(t, sent(t, page), 25_000)
}

// TestSoIsToldOnce holds that what answers tell besides stands where it becomes true, and
// not again below.
func TestSoIsToldOnce(t *testing.T) {
	root := parse(t, largest(t).pages(t, guide.Options{})["platforms/d29.html"])
	told := all(all(root, class("steps"))[0], tag("small"))
	require.NotEmpty(t, told)
	inner := 0
	for _, so := range told {
		if so.Parent.Data == "details" {
			inner++
		}
		var above []string
		for n := range so.Ancestors() {
			if n.Data == "details" && n != so.Parent {
				above = append(above, terms(n)...)
			}
		}
		for _, term := range termsOf(so) {
			assert.NotContains(t, above, term)
		}
	}
	assert.NotZero(t, inner)
}

// terms lists what the step of an element tells besides.
func terms(details *html.Node) []string {
	for n := range details.ChildNodes() {
		if n.Data == "small" {
			return termsOf(n)
		}
	}
	return nil
}

func termsOf(so *html.Node) []string {
	return strings.Split(strings.TrimPrefix(words(so), "so: "), "; ")
}
