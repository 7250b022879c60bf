package enumerate

import (
	"fmt"
	"math"
	"sort"
	"strings"
)

// problem is one disagreement; kind is kept while a catalogue is made smaller.
type problem struct{ kind, text string }

func (p problem) String() string { return p.kind + ": " + p.text }

// checker compares what was built with what was enumerated.
type checker struct {
	c        *catalogue
	o        *outlook
	out      output
	problems []problem
}

func (k *checker) failf(kind, format string, args ...any) {
	k.problems = append(k.problems, problem{kind, fmt.Sprintf(format, args...)})
}

// compare lists every disagreement.
func compare(c *catalogue, o *outlook, out output) []problem {
	k := &checker{c: c, o: o, out: out}
	k.coverage()
	k.setFindings()
	k.rowFindings()
	k.breakFindings()
	k.partFindings()
	k.clashes()
	k.redundant()
	k.mergeable()
	k.unused()
	k.nearMisses()
	k.limits()
	k.acceptedRows()
	k.errors()
	k.reasons()
	k.places()
	k.yearsAhead()
	k.dragged()
	k.summary()
	k.guides("public", out.public)
	k.guides("staff", out.staff)
	return k.problems
}

// near compares shares on the road.
func near(a, b float64) bool {
	return math.Abs(a-b) <= 1e-9*math.Max(1, math.Max(math.Abs(a), math.Abs(b)))
}

func outcomes() []string { return []string{"fitted", "none", "planned", "ask", "conflict", "gap"} }

func (k *checker) coverage() {
	told := map[string]platformCoverage{}
	for _, p := range k.out.coverage {
		told[p.Platform] = p
	}
	if len(told) != len(k.c.platforms) || len(k.out.coverage) != len(k.c.platforms) {
		k.failf("coverage", "%d platforms, want %d", len(k.out.coverage), len(k.c.platforms))
	}
	for _, w := range k.o.worlds {
		name := k.c.platforms[w.platform].name
		p, ok := told[name]
		if !ok {
			k.failf("coverage", "no platform %s", name)
			continue
		}
		all := w.share(count(len(w.configs)))
		if p.Configurations != len(w.configs) || !near(p.OnTheRoad, all) {
			k.failf("coverage", "%s: %d configurations, %v on the road; want %d, %v", name, p.Configurations, p.OnTheRoad, len(w.configs), all)
		}
		k.positionCoverage(w, p)
	}
}

func (k *checker) positionCoverage(w *world, p platformCoverage) {
	told := map[string]positionCoverage{}
	for _, pos := range p.Positions {
		told[pos.Position] = pos
	}
	if len(p.Positions) != len(k.c.positions) {
		k.failf("coverage", "%s: %d positions, want %d", p.Platform, len(p.Positions), len(k.c.positions))
	}
	for i, pos := range k.c.positions {
		got, sets := told[pos.name], map[string][]int{}
		total := 0
		for n, all := range k.o.verdicts[w] {
			if all[i].exists {
				sets[all[i].outcome] = append(sets[all[i].outcome], n)
				total++
			}
		}
		if got.Configurations != total {
			k.failf("coverage", "%s, %s: exists in %d, want %d", p.Platform, pos.name, got.Configurations, total)
		}
		for _, name := range outcomes() {
			n, share := got.counts()[name], got.OnTheRoad[name]
			if n != len(sets[name]) || !near(share, w.share(sets[name])) {
				k.failf("coverage", "%s, %s: %s %d (%v on the road), want %d (%v)", p.Platform, pos.name, name, n, share, len(sets[name]), w.share(sets[name]))
			}
		}
	}
}

// setCodes are the findings that are about sets of configurations.
func setCodes() []string {
	return []string{"coverage-gap", "coverage-planned", "coverage-ask", "fitment-conflict", "part-forbidden", "line-size-mismatch",
		"companion-missing", "companion-forbidden", "vehicles-overlap", "coverage-thin", "indistinguishable", "side-missing", "side-quantity", "sides-differ", "quantity-odd",
		"fact-conflict", "fact-missing", "limit-broken", "limit-undefined"}
}

// keyOf reads which finding this is.
func (k *checker) keyOf(f finding) key {
	id := key{f.Code, f.Platform, f.Position, ""}
	switch f.Code {
	case "sides-differ":
		return k.unequalKey(f, id)
	case "limit-broken", "limit-undefined":
		return k.limitKey(f, id)
	case "fact-missing":
		if len(f.Cells) == 2 {
			id.cells = f.Cells[0].String() + " & " + f.Cells[1].String()
		}
	case "fitment-conflict", "part-forbidden", "line-size-mismatch",
		"companion-missing", "companion-forbidden", "vehicles-overlap", "fact-conflict", "quantity-odd":
		if len(f.Cells) != 2 {
			k.failf(f.Code, "%d cells, want 2: %s", len(f.Cells), f.Message)
			return id
		}
		second := f.Cells[1]
		if f.Code == "part-forbidden" {
			second = second.row()
		}
		id.cells = pair(f.Cells[0], second)
		if ofOnePart(f.Code) {
			id.cells += " & " + f.Part
		}
	}
	return id
}

// setFindings compares the findings about sets, one by one.
func (k *checker) setFindings() {
	told := map[key][]finding{}
	for _, f := range k.out.findings {
		for _, code := range setCodes() {
			if f.Code == code {
				id := k.keyOf(f)
				told[id] = append(told[id], f)
			}
		}
	}
	for id, found := range told {
		if k.o.findings[id] == nil {
			k.failf(id.code, "not expected: %v: %s", id, found[0].Message)
		}
	}
	for _, id := range k.ids() {
		k.oneFinding(k.o.findings[id], told[id])
	}
}

func (k *checker) ids() []key {
	var out []key
	for id := range k.o.findings {
		out = append(out, id)
	}
	sort.Slice(out, func(i, j int) bool { return fmt.Sprint(out[i]) < fmt.Sprint(out[j]) })
	return out
}

// oneFinding compares a finding and its accepted entries with the set.
func (k *checker) oneFinding(e *expected, told []finding) {
	want := k.c.split(e)
	left := want.union()
	open := 0
	for _, f := range told {
		if f.Severity != e.severity {
			k.failf(e.code, "%v: severity %s, want %s", e.key, f.Severity, e.severity)
		}
		if f.Part != strings.Join(e.parts, " ") {
			k.failf(e.code, "%v: part %q, want %q", e.key, f.Part, e.parts)
		}
		k.order(f)
		k.named(e, f)
		k.margin(e, f)
		if f.Accepted == nil {
			open++
			k.sameSet(e, f, want.open)
			continue
		}
		set := k.sameSet(e, f, nil)
		k.acceptedSet(e, f, set, want, left)
	}
	switch {
	case len(want.open) == 0 && open != 0, len(want.open) > 0 && open != 1:
		k.failf(e.code, "%v: told %d times, with %d configurations to tell", e.key, open, len(want.open))
	case len(left) > 0:
		k.failf(e.code, "%v: %d accepted configurations have no entry", e.key, len(left))
	}
}

// acceptedSet holds an accepted entry against the row that it names, and
// takes its configurations away from those that are still to be told.
func (k *checker) acceptedSet(e *expected, f finding, set []int, want entry, left map[int]bool) {
	for a, allowed := range want.accepted {
		if a.first.row() != f.Accepted.Cell.row() {
			continue
		}
		may := map[int]bool{}
		for _, i := range allowed {
			may[i] = true
		}
		for _, i := range set {
			if !may[i] || !left[i] {
				k.failf(e.code, "%v: %s accepted by %v, which does not cover it or twice", e.key, k.c.show(e.world.configs[i]), f.Accepted.Cell)
				return
			}
			delete(left, i)
		}
		return
	}
	k.failf(e.code, "%v: accepted by %v, which accepts nothing of it", e.key, f.Accepted.Cell)
}

// order checks the order of a finding's cells within one sheet.
func (k *checker) order(f finding) {
	if f.Code != "fitment-conflict" || len(f.Cells) != 2 {
		return
	}
	a, b := f.Cells[0], f.Cells[1]
	if a.File > b.File || a.File == b.File && a.Sheet == b.Sheet && !before(a.Cell, b.Cell) {
		k.failf(f.Code, "cells out of order: %v, %v", a, b)
	}
}

// before compares two addresses by row, then column.
func before(a, b string) bool {
	split := func(s string) (string, string) {
		i := strings.IndexAny(s, "0123456789")
		return fmt.Sprintf("%8s", s[i:]), fmt.Sprintf("%4s", s[:i])
	}
	rowA, colA := split(a)
	rowB, colB := split(b)
	return rowA < rowB || rowA == rowB && colA < colB
}
