package mend

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
)

// Values is what there is to know where a condition is mended: a cell under a trait, or
// under Platform.
type Values struct {
	What    string                           // what a name is: `value of Levelling`
	Names   []string                         // all, in their order
	Find    func(text string) (int, bool)    // a name by its index
	Reads   func(cell string) bool           // whether a cell reads
	Ordered bool                             // from and to may stand in a cell
	Step    func(i int, up bool) (int, bool) // the next larger or smaller value
	Absent  bool                             // n/a may stand in a cell
}

// What people write into a condition in place of a name, by what it says.
var (
	anything = phrase(`all|\*+|every|each|everything|anything|whatever|all of (?:them|these)|any of (?:them|these)|all types|either|both|all others?|-+ ?all ?-+`)
	notThere = phrase(`[-\x{2010}-\x{2015}\x{2212}]+|none|n\.?a|n\.a|nil|null|0|/|not (?:applicable|fitted|there|present)|does(?: not|n't) apply`)
	notKnown = phrase(`\?+|tb[acd]|t\.b\.[acd]|unknown|unk|not known|unsure|unclear|pending|to be (?:confirmed|determined|decided)|check|see notes?|varies|various|depends|to ?do`)
	affirms  = phrase(`y|yes|true|x|✓|✔|✔️|☑|1|with|fitted|present|has|on`)
	denies   = phrase(`n|no|false|✗|✘|×|☒|0|without|absent|off|not fitted|w/o`)
)

// How people leave something out, wrap what they name, and compare.
var (
	leaves    = regexp.MustCompile(`(?i)^(?:(?:all|any|anything|everything|every|each|others?|the rest)\s+)?(?:non[-\s]|not:|(?:except(?:ing)?(?:\s+for)?|but(?:\s+not)?|bar|save|besides|excluding|excl|exc|ex|apart from|other than|w/o|without|no|minus|neither|never|is not|isn't)\b\.?)\s*:?\s*(\S.*)$|^(?:<>|!=|=/=|≠|!|¬|~)\s*(\S.*)$|^not\b\s*[:=]?\s*(\S.*)$`)
	leavesEnd = regexp.MustCompile(`(?i)^(\S.*?)\s*(?:excluded|excepted|\(excluded\))$`)
	again     = regexp.MustCompile(`(?i)^(?:(?:and|or|nor|but|,)\s+)*(?:non[-\s]|(?:not|no|nor|except|w/o|without)\b)\s*(\S.*)$|^(?:<>|!=|≠|!)\s*(\S.*)$`)
	wraps     = regexp.MustCompile(`(?i)^(?:(?:only|just|w/|with|has|have|having|is|are|if|when|where|for|either|both|all|yes:?|fits|incl\.?|including)\s+|w/|==?\s*|\+)\s*(\S.*)$`)
	wrapsEnd  = regexp.MustCompile(`(?i)^(\S.*?)\s*(?:\(only\)|,?\s+only|,?\s+(?:fitted|equipped|vehicles?|models?|trucks?|chassis|versions?|types?))$`)
	between   = regexp.MustCompile(`(?i)^(?:from\s+|between\s+)?(\S.*?)\s*(?:\s-\s|[–—~…]|\.\.+|\s+(?:to|thru|through|until|till|up to|and)\s+|-)\s*(\S.*)$`)
	least     = regexp.MustCompile(`(?i)^(?:>=|=>|≥|at least|min(?:imum|\.)?|from|since|starting(?: at)?)\s*(\S.*)$|^(\S.*?)\s*(?:\+|(?:and|&|or)\s+(?:up|above|over|more|higher|larger|heavier|later|newer|bigger)|upwards?|onwards?|min\.?)$`)
	most      = regexp.MustCompile(`(?i)^(?:<=|=<|≤|at most|max(?:imum|\.)?|up to|upto|to|until|till)\s*(\S.*)$|^(\S.*?)\s*(?:(?:and|&|or)\s+(?:down|below|under|less|lower|smaller|lighter|earlier|older)|max\.?)$`)
	above     = regexp.MustCompile(`(?i)^(?:>|over|above|more than|greater than|larger than|heavier than|after)\s*(\S.*)$`)
	below     = regexp.MustCompile(`(?i)^(?:<|under|below|less than|smaller than|lighter than|before)\s*(\S.*)$`)
	lists     = regexp.MustCompile(`(?i)\s*[,;\n\r/|\\]+\s*|\s*&\s*|\s+(?:or|and|nor|plus)\s+|\s*\+\s+|\s+or\s*`)
	listWords = regexp.MustCompile(`(?i)^(?:and|or|nor|also)\s+`)
)

// Advise says what to write in place of a condition that does not read; false where it
// shows nothing of what was meant, or names what is not declared.
func (v Values) Advise(text string) (Advice, bool) {
	text = strings.Join(strings.Fields(strings.NewReplacer("\n", ", ", "\r", "").Replace(text)), " ")
	if a, ok := v.word(text); ok {
		return a, true
	}
	if a, ok := v.mixed(text); ok {
		return a, true
	}
	if w, why, ok := v.cell(text); ok && v.Reads(w) {
		return Advice{Says: why + "; write " + w, Write: []string{w}}, true
	}
	return v.remarked(text)
}

// word reads a cell of which one word says something that is no name.
func (v Values) word(text string) (Advice, bool) {
	s := folded(text)
	if i, ok := v.yesNo(s); ok && v.Reads(v.Names[i]) {
		return Advice{Says: fmt.Sprintf("is no %s; write %s", v.What, v.Names[i]), Write: v.Names[i : i+1]}, true
	}
	switch {
	case anything.MatchString(s):
		says := fmt.Sprintf("is no %s; write any", v.What)
		if w := strings.Join(v.Names, " or "); s != "*" && len(v.Names) == 2 && v.Absent && v.Reads(w) {
			return Advice{Says: says + ", or " + w + " where only those are meant", Write: []string{"any", w}}, true
		}
		return Advice{Says: says, Write: []string{"any"}}, true
	case notThere.MatchString(s):
		if v.Absent {
			return Advice{Says: fmt.Sprintf("is no %s; write any, or n/a where the trait does not apply", v.What), Write: []string{"any", "n/a"}}, true
		}
		return Advice{Says: fmt.Sprintf("is no %s; write any where each is meant", v.What), Write: []string{"any"}}, true
	case notKnown.MatchString(s):
		return saying(fmt.Sprintf("is taken to say that it is not known, and a condition says for which vehicles the row holds; write each %s that it may be, or any", v.What))
	case repeats.MatchString(s):
		return saying("is taken to repeat another cell, and each cell is read by itself; write here what that cell says")
	case affirms.MatchString(s) || denies.MatchString(s):
		return saying(fmt.Sprintf("is taken for yes or no, and is no %s; write %s", v.What, v.few()))
	}
	return Advice{}, false
}

// few names the names that there are, where they are few.
func (v Values) few() string {
	if n := len(v.Names); n == 0 || n > 8 {
		return "one of those that are declared"
	}
	return strings.Join(v.Names, " or ")
}

// yesNo finds the value that a yes or a no stands for: Yes or No, or the one of two that is
// or is not the other's denial (No tee, Tee).
func (v Values) yesNo(s string) (int, bool) {
	yes, no := affirms.MatchString(s), denies.MatchString(s)
	if yes == no {
		return 0, false
	}
	for i, n := range v.Names {
		if f := folded(n); yes && (f == "yes" || f == "y") || no && (f == "no" || f == "n") {
			return i, true
		}
	}
	if len(v.Names) != 2 {
		return 0, false
	}
	denial := regexp.MustCompile(`^(?:no|not|non|without|none)\b`)
	first, second := denial.MatchString(folded(v.Names[0])), denial.MatchString(folded(v.Names[1]))
	switch {
	case first == second:
		return 0, false
	case first == no:
		return 0, true
	}
	return 1, true
}

// cell turns a text into a condition, with what it was taken for.
func (v Values) cell(text string) (write, why string, ok bool) {
	if m := first(leaves, text); m != "" {
		if names, ok := v.names(m, true); ok {
			return "not " + strings.Join(names, ", "), "is taken to leave out what it names, and \"not\" stands once, before the whole list", true
		}
	}
	if m := first(leavesEnd, text); m != "" {
		if names, ok := v.names(m, false); ok {
			return "not " + strings.Join(names, ", "), "is taken to leave out what it names, and \"not\" before the list says that", true
		}
	}
	if v.Ordered {
		if w, why, ok := v.stretch(text); ok {
			return w, why, true
		}
	}
	if names, ok := v.names(text, false); ok {
		if len(names) > 1 {
			return strings.Join(names, " or "), "names several values, and a vehicle has one of them, so \"or\" stands between them", true
		}
		return names[0], fmt.Sprintf("is no %s as it stands", v.What), true
	}
	for _, p := range []*regexp.Regexp{wraps, wrapsEnd} {
		if m := first(p, text); m != "" {
			if names, ok := v.names(m, false); ok {
				return strings.Join(names, " or "), "names what is meant among other words; a condition is the name alone", true
			}
		}
	}
	return "", "", false
}

// first gives the group of a pattern that has matched, "" if the pattern has not.
func first(p *regexp.Regexp, text string) string {
	if m := p.FindStringSubmatch(text); m != nil {
		return strings.TrimSpace(strings.Join(m[1:], ""))
	}
	return ""
}

// names reads a list of names with any sign between them; where not stood before the list,
// it may stand before each of them again.
func (v Values) names(text string, not bool) ([]string, bool) {
	if n, ok := v.name(text); ok {
		return []string{n}, true
	}
	var out []string
	for _, p := range split(text, lists) {
		if p = strings.TrimSpace(listWords.ReplaceAllString(strings.TrimSpace(p), "")); p == "" {
			continue
		}
		n, ok := v.name(p)
		if rest := first(again, p); !ok && not && rest != "" {
			n, ok = v.name(rest)
		}
		if !ok {
			return nil, false
		}
		out = append(out, n)
	}
	return distinct(out), len(out) > 0
}

// reserved are words that mean something in a condition and begin no name.
var reserved = phrase(`any|all|not|no|non|none|from|to|or|and|with|without|yes`)

// name finds a name as it is declared, or with other spaces and hyphens, or the one that
// goes on from the text: Fixed for Fixed tag.
func (v Values) name(text string) (string, bool) {
	text = strings.TrimSpace(text)
	if folded(text) == "n/a" && v.Absent {
		return "n/a", true
	}
	if i, ok := v.Find(text); ok {
		return v.Names[i], true
	}
	if inner, ok := strings.CutPrefix(text, "("); ok && strings.HasSuffix(inner, ")") {
		return v.name(inner[:len(inner)-1])
	}
	if reserved.MatchString(folded(text)) {
		return "", false
	}
	for _, is := range []func(string) bool{
		func(n string) bool { return squeezed(n) == squeezed(text) },
		func(n string) bool {
			return len(text) > 1 && strings.HasPrefix(strings.ToLower(n), strings.ToLower(text)+" ")
		},
	} {
		var found []string
		for _, n := range v.Names {
			if is(n) {
				found = append(found, n)
			}
		}
		if len(found) == 1 {
			return found[0], true
		}
	}
	return "", false
}

// stretch reads a comparison.
func (v Values) stretch(text string) (write, why string, ok bool) {
	why = "is taken for a range of values, which \"from\" and \"to\" say"
	if m := between.FindStringSubmatch(text); m != nil {
		low, ok1 := v.name(m[1])
		high, ok2 := v.name(m[2])
		if ok1 && ok2 {
			if w := fmt.Sprintf("from %s to %s", low, high); v.Reads(w) {
				return w, why, true
			}
			return fmt.Sprintf("from %s to %s", high, low), "runs backwards", true
		}
	}
	for _, c := range []struct {
		is   *regexp.Regexp
		as   string
		step int
	}{{least, "from ", 0}, {most, "to ", 0}, {above, "from ", 1}, {below, "to ", -1}} {
		n, ok := v.name(first(c.is, text))
		if !ok || n == "n/a" {
			continue
		}
		if c.step != 0 {
			i, found := v.Find(n)
			if !found {
				continue
			}
			next, there := v.Step(i, c.step > 0)
			if !there {
				continue
			}
			n = v.Names[next]
		}
		return c.as + n, why, true
	}
	return "", "", false
}

// mixed reads a list that names values and leaves others out.
func (v Values) mixed(text string) (Advice, bool) {
	if first(leaves, text) != "" {
		return Advice{}, false
	}
	var in, out []string
	for _, p := range split(text, lists) {
		p = strings.TrimSpace(listWords.ReplaceAllString(strings.TrimSpace(p), ""))
		if n, ok := v.name(p); ok {
			in = append(in, n)
		} else if n, ok := v.name(first(again, p)); ok {
			out = append(out, n)
		} else {
			return Advice{}, false
		}
	}
	named, left := strings.Join(distinct(in), " or "), "not "+strings.Join(distinct(out), ", ")
	if len(in) == 0 || len(out) == 0 || !v.Reads(named) || !v.Reads(left) {
		return Advice{}, false
	}
	return Advice{
		Says:  fmt.Sprintf("names some and leaves out others in one cell; write %q where only those named are meant, or %q where all but those left out are", named, left),
		Write: []string{named, left},
	}, true
}

// remarked reads a name with a remark behind it.
func (v Values) remarked(text string) (Advice, bool) {
	at := token.FindAllStringIndex(text, -1)
	for n := len(at) - 1; n > 0; n-- {
		name, ok := v.name(text[:at[n-1][1]])
		if !ok || !strings.ContainsAny(text[at[n][0]:at[n][0]+1], "(*#^?!:") && !strings.ContainsAny(text[at[n][0]:at[n][1]], "†‡¹²³⁴") || !v.Reads(name) {
			continue
		}
		remark := trimmed(text[at[n][0]:])
		if slices.ContainsFunc(v.Names, func(n string) bool { return strings.Contains(folded(remark), folded(n)) }) {
			return Advice{}, false
		}
		return Advice{
			Says:  fmt.Sprintf("has a remark behind a name; write %s, and put %q under the trait or the years that it is about, or into a Note", name, remark),
			Write: []string{name}, Aside: []string{remark},
		}, true
	}
	return Advice{}, false
}
