package propose

import (
	"fmt"
	"slices"
	"strings"

	"ferrule/compiler/propose/shape"
)

// unionYears joins years as sheets write them to ranges with two ends; "" where none has a year.
func unionYears(texts []string) string {
	var spans [][2]int
	for _, text := range texts {
		for _, piece := range strings.FieldsFunc(text, func(r rune) bool { return r == ',' || r == ';' || r == '\n' }) {
			if first, last := shape.Extent(piece); first > 0 {
				spans = append(spans, [2]int{first, last})
			}
		}
	}
	slices.SortFunc(spans, func(a, b [2]int) int { return a[0] - b[0] })
	var joined [][2]int
	for _, s := range spans {
		if n := len(joined); n > 0 && s[0] <= joined[n-1][1]+1 {
			joined[n-1][1] = max(joined[n-1][1], s[1])
		} else {
			joined = append(joined, s)
		}
	}
	var out []string
	for _, s := range joined {
		if s[0] == s[1] {
			out = append(out, fmt.Sprint(s[0]))
		} else {
			out = append(out, fmt.Sprintf("%d-%d", s[0], s[1]))
		}
	}
	return strings.Join(out, ", ")
}

// openEnded tells years of which one has no end, or no beginning.
func openEnded(texts []string) bool {
	for _, text := range texts {
		for _, piece := range strings.FieldsFunc(text, func(r rune) bool { return r == ',' || r == ';' || r == '\n' }) {
			first, last := shape.Extent(piece)
			if first > 0 && first == last && strings.Trim(piece, "0123456789 '’") != "" {
				return true
			}
		}
	}
	return false
}
