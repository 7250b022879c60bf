package report

import (
	"fmt"
	"slices"
	"strings"

	"ferrule/compiler/model"
	"ferrule/compiler/release"
	"ferrule/compiler/release/compare"
	"ferrule/schema/word"
)

// quote makes of a text from a workbook what a format may hold; plain leaves it.
type quote func(string) string

func plain(s string) string { return s }

// changed says a change in a sentence of its own: which position on which platform, what
// was said, and what is.
func (q quote) changed(c *compare.Change) string {
	was, is := fitted(c.Old, false), fitted(c.New, false)
	if was == is && c.Kind == compare.Changed {
		was, is = fitted(c.Old, true), fitted(c.New, true) // what a kit holds has changed
	}
	return fmt.Sprintf("%s on %s: %s; now %s", q(c.Position), q(c.Platform), past(c.Old, q(was)), present(c.New, q(is)))
}

func past(a compare.Answer, parts string) string {
	if !a.Exists {
		return "the position was not there"
	}
	switch a.Outcome {
	case model.Gap:
		return "no cell said anything"
	case model.None:
		return "nothing belonged there"
	case model.Planned:
		return "something was planned"
	case model.Ask:
		return "the reader had to ask"
	case model.Conflict:
		return "cells disagreed"
	}
	if !a.Settled {
		return parts + " was fitted, which a check found wrong"
	}
	return parts + " was fitted"
}

func present(a compare.Answer, parts string) string {
	if !a.Exists {
		return "the position is not there"
	}
	switch a.Outcome {
	case model.Gap:
		return "no cell says anything"
	case model.None:
		return "nothing belongs there"
	case model.Planned:
		return "something is planned"
	case model.Ask:
		return "the reader has to ask"
	case model.Conflict:
		return "cells disagree"
	}
	if !a.Settled {
		return parts + " is fitted, which a check finds wrong"
	}
	return parts + " is fitted"
}

// fitted says the parts of an answer as a cell would; kits with what they hold, where
// that is asked for.
func fitted(a compare.Answer, holds bool) string {
	if a.With != nil {
		return "the item at " + a.With.Name
	}
	words := make([]string, len(a.Alternatives))
	for i, alternative := range a.Alternatives {
		words[i] = items(alternative, holds, map[*model.Part]bool{})
	}
	return strings.Join(words, " or ")
}

// items says parts that are fitted together. A kit that comes up again is not opened again.
func items(list model.Alternative, holds bool, seen map[*model.Part]bool) string {
	words := make([]string, len(list))
	for i, it := range list {
		words[i] = it.Part.Number
		if it.Quantity > 1 {
			words[i] = fmt.Sprintf("%d x %s", it.Quantity, it.Part.Number)
		}
		if holds && it.Part.Kit() && !seen[it.Part] {
			seen[it.Part] = true
			words[i] += " (" + items(compare.Contents(it.Part), true, seen) + ")"
		}
	}
	return strings.Join(words, " + ")
}

// moved says which vehicles appeared or vanished.
func (q quote) moved(f *compare.Fleet) string {
	switch {
	case f.Kind == compare.Appeared && f.Whole:
		return q(f.Platform) + " is a new platform"
	case f.Kind == compare.Appeared:
		return "vehicles of " + q(f.Platform) + " that were not there" + q.broken(f, "ruled out")
	case f.Whole:
		return q(f.Platform) + " is no platform any more"
	}
	return "vehicles of " + q(f.Platform) + " that are not there any more" + q.broken(f, "rules out")
}

// broken names the Breaks rows of the release that does not have the vehicles, with the verb that
// becomes it; "" where none is about them.
func (q quote) broken(f *compare.Fleet, verb string) string {
	words := make([]string, len(f.Breaks))
	for i, at := range f.Breaks {
		words[i] = q(at.String())
	}
	if len(words) > 1 {
		verb = strings.Replace(verb, "rules", "rule", 1)
	}
	if len(words) == 0 {
		return ""
	}
	return ", which " + word.List(words, "and") + " " + verb
}

func (q quote) renamed(r *compare.Rename) string {
	what := r.What.String()
	if r.Trait != "" {
		what += " of " + q(r.Trait)
	}
	return fmt.Sprintf("%s %s is called %s now: %s", what, q(r.Old), q(r.New), r.Why)
}

func (q quote) parted(s *compare.Split) string {
	if s.Dropped {
		return fmt.Sprintf("vehicles of %s are not told apart by %s any more", q(s.Platform), q(s.Trait))
	}
	return fmt.Sprintf("vehicles of %s are told apart by %s, about which nothing was said", q(s.Platform), q(s.Trait))
}

// advised says how a row of Complaints or Inspections differs.
func (q quote) advised(a *compare.Advice) string {
	switch {
	case a.Was == "":
		return fmt.Sprintf("new in %s, %s: %s", a.Sheet, q(a.What), q(a.Now))
	case a.Now == "":
		return fmt.Sprintf("gone from %s, %s: %s", a.Sheet, q(a.What), q(a.Was))
	}
	return fmt.Sprintf("changed in %s, %s: it says %s, and said %s", a.Sheet, q(a.What), q(a.Now), q(a.Was))
}

func (q quote) tangled(i *compare.Irregular) string {
	if i.Position == "" {
		return "the vehicles of " + q(i.Platform) + " are too irregular to be compared"
	}
	return q(i.Position) + " on " + q(i.Platform) + " is too irregular to be compared"
}

// state says what a release was read from.
func (q quote) state(s release.State) string {
	words := q(s.Source)
	if s.Label != "" {
		words += " (release " + q(s.Label) + ")"
	}
	if s.Kind == "staff" {
		words += ": the staff folder of an earlier build"
	} else {
		words += fmt.Sprintf(": %s, %s, %s", count(s.Workbooks, "workbook"), count(s.Sheets, "sheet"), count(s.Rows, "row"))
	}
	return words + "; " + Summary(s.Findings)
}

// outcome says in one line what differs, the most important first.
func outcome(d *compare.Diff) string {
	var words []string
	sums := d.Sums()
	for k := range slices.Backward(sums[:]) {
		if s := sums[k]; s.Entries > 0 {
			words = append(words, fmt.Sprintf("%d %s%s", s.Entries, compare.Kind(k), acceptedOf(s)))
		}
	}
	if n := len(d.Irregular); n > 0 {
		words = append(words, fmt.Sprintf("%d not compared", n))
	}
	if n := len(d.Renames); n > 0 {
		words = append(words, fmt.Sprintf("%d renamed", n))
	}
	if n := len(d.Splits); n > 0 {
		words = append(words, fmt.Sprintf("%d told apart otherwise", n))
	}
	if len(words) == 0 {
		return "no difference"
	}
	return strings.Join(words, ", ")
}

func acceptedOf(s compare.Sum) string {
	switch s.Accepted {
	case 0:
		return ""
	case s.Entries:
		return " (accepted)"
	}
	return fmt.Sprintf(" (%d of them accepted)", s.Accepted)
}
