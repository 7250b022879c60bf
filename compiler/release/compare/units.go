package compare

import (
	"fmt"

	"ferrule/compiler/finding"
	"ferrule/compiler/intake/written"
)

// units tells the columns whose header has another unit than in OLD, over numbers that are
// the same: all of them mean something else now, and nothing in NEW contradicts.
func units(p *written.Pair) []*finding.Finding {
	var out []*finding.Finding
	for _, u := range p.Units() {
		f := &finding.Finding{Code: finding.UnitChanged, Severity: finding.Warning,
			Message:  fmt.Sprintf("the header of %s has %s and had %s in the earlier release, over %s", u.Name, bracketed(u.Now), bracketed(u.Was), sameNumbers(u.Cells)),
			Constant: fmt.Sprintf("the header of %s has %s and had %s in the earlier release, over the same numbers", u.Name, bracketed(u.Now), bracketed(u.Was)),
			Cells:    finding.At(u.At),
			Fix:      fmt.Sprintf("write %s again, or convert the numbers; where the earlier header was wrong, accept the finding", bracketed(u.Was))}
		if u.Was == "" {
			f.Fix = "take the unit off again, or look whether the numbers are of it; where the earlier header was wrong, accept the finding"
		}
		out = append(out, f)
	}
	return out
}

func bracketed(unit string) string {
	if unit == "" {
		return "no unit"
	}
	return "[" + unit + "]"
}

func sameNumbers(cells int) string {
	if cells == 1 {
		return "a cell that says the same"
	}
	return fmt.Sprintf("%d cells that say the same", cells)
}
