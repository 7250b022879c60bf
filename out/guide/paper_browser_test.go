package guide_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/out/guide"
)

// printed is what testdata/browser/paper.mjs prints of a page on one size of paper.
type printed struct {
	Page, Format     string
	Sheets, Headings int
	Low              []string // headings that end a sheet
}

// sheetsOf says how many sheets pages of the demo take at most, on A4 and on Letter, by the widest font that the style
// sheet may come to (DejaVu Sans). The answered guide is printed as the list of one vehicle's parts.
func sheetsOf() map[string][2]int {
	return map[string][2]int{
		"platforms/h7.html":            {10, 11},
		"platforms/h9.html":            {9, 9},
		"platforms/k26.html":           {7, 8},
		"platforms/l4.html":            {5, 6},
		"platforms/n5.html":            {5, 5},
		"platforms/h7.html" + answered: {2, 2},
		"parts/hpr-9141.html":          {2, 2},
		"index.html":                   {2, 2},
		"404.html":                     {1, 1},
	}
}

func TestPaperInBrowser(t *testing.T) {
	browser(t)
	dir := t.TempDir()
	write(t, dir, demoSample(t).pages(t, guide.Options{}))
	names := append(sorted(sheetsOf()), "a-z.html")
	var got []printed
	play(t, "paper.mjs", names, &got, dir)
	require.Len(t, got, 2*len(names))
	for i, p := range got {
		if most, told := sheetsOf()[p.Page]; told {
			assert.LessOrEqual(t, p.Sheets, most[i%2], "%s on %s: sheets of paper", p.Page, p.Format)
		}
		assert.Greater(t, p.Headings, 1, "%s on %s: headings that were found", p.Page, p.Format)
		assert.Empty(t, p.Low, "%s on %s: headings that end a sheet", p.Page, p.Format)
	}
}

// What is printed in languages whose words are longer keeps its headings with what follows as well.
func TestPaperOfTonguesInBrowser(t *testing.T) {
	browser(t)
	dir := t.TempDir()
	names := thinned(t, inTongues(t, dir, ""))
	var got []printed
	play(t, "paper.mjs", names, &got, dir)
	require.Len(t, got, 2*len(names))
	for _, p := range got {
		assert.Empty(t, p.Low, "%s on %s: headings that end a sheet", p.Page, p.Format)
	}
}
