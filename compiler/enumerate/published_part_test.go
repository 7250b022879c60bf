package enumerate

import (
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"
)

// part compares what is published of a part with what was enumerated.
func (t *truth) part(p *publicPart, failf func(string, ...any)) {
	told := map[fitAt]map[int]bool{}
	for _, f := range p.Fits {
		for _, b := range f.Where {
			if loose := t.loose(f.Platform, b); loose != "" {
				failf("%s on %s, %s: %s", p.Part, f.Platform, f.Position, loose)
			}
			for i, v := range t.vehicles[f.Platform] {
				if b.has(v) {
					note(told, fitAt{p.Part, f.Platform, f.Position, f.Kit, f.Choice}, i)
				}
			}
		}
	}
	want := map[fitAt]map[int]bool{}
	for at, set := range t.fits {
		if at.part == p.Part {
			want[at] = set
		}
	}
	if !maps.EqualFunc(told, want, maps.Equal) {
		failf("%s: offered as %v, want %v", p.Part, told, want)
	}
	t.partRules(p, failf)
	t.engines(p, want, failf)
	p.page(failf)
}

func (t *truth) partRules(p *publicPart, failf func(string, ...any)) {
	sets, told := map[ruleAt]map[int]bool{}, map[ruleAt]bool{}
	for _, r := range p.Compatibility {
		t.ruleBoxes(r.Platform, r, sets, failf)
		told[r.at(r.Platform)] = true
		if !slices.ContainsFunc(p.rules, func(words string) bool { return strings.Contains(words, strings.Join(strings.Fields(r.Reason), " ")) }) {
			failf("%s: its page does not say %q", p.Part, r.Reason)
		}
	}
	if !maps.Equal(told, t.about[p.Part]) {
		failf("%s: rules %v, want %v", p.Part, told, t.about[p.Part])
	}
	for at, set := range sets {
		if !maps.Equal(set, t.rules[at]) {
			failf("%s: the rule %v is not on its vehicles", p.Part, at)
		}
	}
}

// engines wants search engines to be told the years in which the part fits a vehicle.
func (t *truth) engines(p *publicPart, fits map[fitAt]map[int]bool, failf func(string, ...any)) {
	want := map[string]map[int]bool{}
	for at, set := range fits {
		for i := range set {
			note(want, at.platform, t.vehicles[at.platform][i].year)
		}
	}
	if len(p.years) != len(want) {
		failf("%s: %d vehicles for search engines, want %d", p.Part, len(p.years), len(want))
	}
	for platform, years := range want {
		var words []string
		for _, y := range slices.Sorted(maps.Keys(years)) {
			words = append(words, strconv.Itoa(y))
		}
		found := false
		for name, told := range p.years {
			found = found || strings.HasSuffix(name, strings.Join(strings.Fields(platform), " ")) && slices.Equal(told, words)
		}
		if !found {
			failf("%s: search engines are told %v, want %v of %s", p.Part, p.years, words, platform)
		}
	}
}

// page wants the page of a part to say where it fits as its data do: the same years, the
// same traits, and each value.
func (p *publicPart) page(failf func(string, ...any)) {
	if len(p.rows) != len(p.Fits) {
		failf("%s: %d rows on its page for %d fits", p.Part, len(p.rows), len(p.Fits))
		return
	}
	for i, f := range p.Fits {
		row := p.rows[i]
		if row.place != strings.Join(strings.Fields(f.Position), " ") || len(row.boxes) != len(f.Where) {
			failf("%s, row %d: %v for %v", p.Part, i+1, row, f)
			continue
		}
		for n, b := range f.Where {
			if wrong := row.boxes[n].unlike(b); wrong != "" {
				failf("%s, row %d: %s", p.Part, i+1, wrong)
			}
		}
	}
}

// unlike says how a box on a page differs from its data; "" where it does not. A value
// that is told as one that is left out, or as any, is not looked for.
func (w pageBox) unlike(b box) string {
	all := "all years"
	if len(b.Traits) == 0 && len(b.Years) == 0 || w.years == "" {
		all = ""
	}
	if years := yearText(b.Years, all); w.years != years {
		return fmt.Sprintf("years %q, want %q", w.years, years)
	}
	for trait, values := range b.Traits {
		said, named := w.terms[trait]
		if !named {
			said = w.terms["so"]
			if !strings.Contains(said, trait) {
				return fmt.Sprintf("%s is not told in %v", trait, w.terms)
			}
		}
		for _, v := range values {
			if v == nil && !strings.Contains(said, "not apply") && !strings.Contains(said, "any") && !strings.Contains(said, "no "+trait) && !strings.Contains(said, "but ") {
				return fmt.Sprintf("%s is not told as what does not apply in %v", trait, w.terms)
			}
			if v != nil && !strings.Contains(said, "any") && !strings.Contains(said, strings.Join(strings.Fields(*v), " ")) {
				return fmt.Sprintf("%s %s is not told in %v", trait, *v, w.terms)
			}
		}
	}
	for trait := range w.terms {
		if _, ok := b.Traits[trait]; !ok && trait != "so" {
			return trait + " is told and is not in the data"
		}
	}
	return ""
}
