package bind

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"ferrule/schema/word"
)

// Ways in which people write a quantity that are not the one that is read.
var (
	quantityAfter = regexp.MustCompile(`^(.*\S)\s*(?:[xX×*]\s*(\d+)|\(\s*(\d+)\s*(?:off|pcs?|x)?\s*\))$`)
	quantityTight = regexp.MustCompile(`^(\d+)\s*[xX×*]\s*(\S.*)$`)
	quantityPart  = regexp.MustCompile(`^(\d*[.,]\d+|-\d+)\s*(?:[xX×]\s*(\S.*))?$`)
	joined        = regexp.MustCompile(`\s+and\s+|\s*&\s*|\s*/\s*|\s*\|\s*`)
)

// meant says what to write where the text is no part number and it shows what was
// meant; "" where it does not.
func (b *binder) meant(text string) string {
	known := func(s string) (string, bool) {
		p, ok := b.part(strings.TrimSpace(s))
		if !ok {
			return "", false
		}
		return p.Number, true
	}
	if m := quantityTight.FindStringSubmatch(text); m != nil {
		if n, ok := known(m[2]); ok {
			return fmt.Sprintf("a quantity stands before the part, with x and a space: write %s x %s", m[1], n)
		}
	}
	if m := quantityAfter.FindStringSubmatch(text); m != nil {
		if n, ok := known(m[1]); ok {
			return fmt.Sprintf("a quantity stands before the part, with x and a space: write %s x %s", m[2]+m[3], n)
		}
	}
	if m := quantityPart.FindStringSubmatch(text); m != nil {
		if _, ok := known(m[2]); ok || m[2] == "" {
			return fmt.Sprintf("a quantity is a whole number from 1 to %d", maxQuantity)
		}
	}
	if pieces := severed(text); len(pieces) > 1 && !slices.ContainsFunc(pieces, func(p string) bool { _, ok := known(p); return !ok }) {
		return "one part is meant here; write a row for each"
	}
	if pieces := joined.Split(text, -1); len(pieces) > 1 {
		var numbers []string
		for _, p := range pieces {
			if n, ok := known(p); ok {
				numbers = append(numbers, n)
			}
		}
		if len(numbers) == len(pieces) {
			return fmt.Sprintf("write %s for a choice, or %s for parts fitted together", quote(strings.Join(numbers, " or ")), quote(strings.Join(numbers, " + ")))
		}
	}
	switch strings.Trim(word.Fold(text), ". ") {
	case "?", "??", "???", "unknown", "tba", "n.a", "na", "no", "no part", "nothing", "not fitted", "tbc":
		return "write none and the reason where nothing belongs, planned where something will come, or ask and what to find out"
	}
	return ""
}
