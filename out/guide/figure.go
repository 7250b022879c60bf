package guide

import (
	"regexp"
	"strings"

	"ferrule/compiler/measure"
	"ferrule/compiler/model"
)

// figuresIn gives the measured values of traits that read otherwise in a further language, since its decimal sign is
// another one, by their keys. What is also the number of a part is none: numbers of parts are never translated.
func figuresIn(cat *model.Catalogue, decimal string) map[string]string {
	own := "."
	if cat.Settings.DecimalComma {
		own = ","
	}
	if own == decimal {
		return nil
	}
	numbers := map[string]bool{}
	for _, p := range cat.Parts {
		numbers[model.TextKey(p.Number)] = true
	}
	out := map[string]string{}
	for _, t := range cat.Traits {
		for _, v := range t.Values {
			key := model.TextKey(v.Name)
			if q, err := measure.ParseQuantity(v.Name, measure.Options{Comma: own == ","}); !t.Kind.OnLine() && err == nil && q.Known() && !numbers[key] && !strings.Contains(v.Name, decimal) {
				out[key] = pointed(own).ReplaceAllString(v.Name, "${1}"+decimal+"${2}")
			}
		}
	}
	return out
}

// pointed finds a decimal sign between digits.
func pointed(sign string) *regexp.Regexp {
	return regexp.MustCompile(`(\d)` + regexp.QuoteMeta(sign) + `(\d)`)
}
