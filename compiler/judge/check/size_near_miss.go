package check

import (
	"fmt"
	"slices"

	"ferrule/compiler/finding"
	"ferrule/compiler/measure"
	"ferrule/compiler/model"
	"ferrule/schema/word"
)

var sizeNearMiss = &Check{
	Kind: finding.Kind{Code: finding.SizeNearMiss, Severity: "warning, note where both values have a How to tell",
		Summary: "two values of a size trait that no calliper tells apart",
		Doc:     "5/32 in and 4 mm, 5/16 in and 8 mm, 5/8 in and 16 mm are less than 1 % apart, less than a tube is worn, bent or out of round, and two walls of one outside diameter differ only inside; they do not fit each other's fittings. Whoever measures picks one by chance. Each value needs a How to tell that does not rest on measuring: the print on the line, its colour, the mark on the fitting. Whether a text that is there does so no program can judge, so that a note stays.",
		Before:  "Traits!B6  5/16 in  E6  7.9 mm across\nTraits!B7  8 mm     E7  (blank)",
		After:   "Traits!B6  5/16 in  E6  The print on the line gives inches.\nTraits!B7  8 mm     E7  The print on the line begins with DIN."},
	Catalogue: func(c *Catalogue) {
		for _, t := range c.Traits {
			if t.Kind != model.Size {
				continue
			}
			for i, b := range t.Values {
				for _, a := range t.Values[:i] {
					if why := confusable(c.Sizes, a.Size, b.Size); why != "" {
						c.Report(nearMiss(t, a, b, why))
					}
				}
			}
		}
	},
}

func nearMiss(t *model.Trait, a, b *model.Value, why string) *finding.Finding {
	f := &finding.Finding{Code: finding.SizeNearMiss, Severity: finding.Note,
		Message: fmt.Sprintf("two values of %s look alike: %s", t.Name, why),
		Cells:   finding.At(a.At, b.At),
		Fix:     "see that no How to tell of the two rests on measuring, but on the print on the line, its colour or the mark on the fitting"}
	var silent []string
	for _, v := range []*model.Value{a, b} {
		if !slices.ContainsFunc(v.Tell, func(x model.Tell) bool { return x.Platform == nil && x.Text != "" }) {
			silent = append(silent, v.Name)
		}
	}
	if len(silent) > 0 {
		f.Severity = finding.Warning
		f.Fix = fmt.Sprintf("write a How to tell for %s that does not rest on measuring, but on the print on the line, its colour or the mark on the fitting", word.List(silent, "and"))
	}
	return f
}

// confusable says why two sizes cannot be told apart by measuring the outside, "" where
// they can or are the same.
func confusable(t measure.Table, a, b measure.Size) string {
	switch {
	case t.NearMiss(a, b):
		return fmt.Sprintf("%s, and no calliper tells them apart on a used %s", measure.Apart(a, b), a.Line)
	case a.Known() && b.Known() && a.Compare(b) == 0 && !a.Equal(b):
		return fmt.Sprintf("%s and %s differ only inside (%s and %s mm), which shows at a cut end",
			a.Text, b.Text, measure.Decimal(a.Inside(), 3), measure.Decimal(b.Inside(), 3))
	}
	return ""
}
