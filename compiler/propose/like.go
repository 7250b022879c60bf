package propose

import (
	"fmt"
	"slices"
	"strings"

	"ferrule/compiler/intake"
	"ferrule/sheets"
)

// maxLike is how many sheets of what something looks like are named.
const maxLike = 3

// Like says what the sheets of workbooks without any sheet of a catalogue look like, `what fits which
// vehicles (chart.xlsx: Suspension)`; "" where none looks like anything. What cannot be read is left out.
func Like(src *intake.Sources) string {
	var order []string
	on := map[string][]string{}
	for _, b := range src.Books {
		for _, s := range seenIn(b) {
			if s.Known || !s.Understood {
				continue
			}
			if on[s.What] == nil {
				order = append(order, s.What)
			}
			on[s.What] = append(on[s.What], b.Name+": "+s.Sheet)
		}
	}
	var out []string
	for _, what := range order {
		named := on[what]
		more := ""
		if len(named) > maxLike {
			more = fmt.Sprintf(" and %d more", len(named)-maxLike)
		}
		out = append(out, fmt.Sprintf("%s (%s%s)", what, strings.Join(named[:min(len(named), maxLike)], ", "), more))
	}
	slices.Sort(out)
	return strings.Join(out, ", ")
}

// seenIn looks at one workbook without a catalogue; nothing is seen in one that cannot be read.
func seenIn(b intake.Source) []Seen {
	book, err := sheets.Open(b.Path)
	if err != nil {
		return nil
	}
	defer book.Close() //nolint:errcheck // it was only read
	p, err := Look(b.Name, book, NewNames(nil))
	if err != nil {
		return nil
	}
	return p.Seen
}
