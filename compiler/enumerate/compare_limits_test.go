package enumerate

import (
	"slices"
	"sort"
	"strings"
)

// limitKey finds which finding about a limit this is. A broken limit is told once for
// each pair of values on its two sides: the example tells which, since no vehicle has
// two.
func (k *checker) limitKey(f finding, id key) key {
	if len(f.Cells) < 2 || f.Example == nil {
		k.failf(f.Code, "%d cells, example %v: %s", len(f.Cells), f.Example, f.Message)
		return id
	}
	last := f.Cells[len(f.Cells)-1]
	id.cells = strings.Join([]string{f.Cells[0].String(), last.String(), f.Part}, " & ")
	for other, e := range k.o.findings {
		same := other.code == id.code && other.platform == id.platform && other.position == id.position
		if same && strings.HasPrefix(other.cells, id.cells) && k.inSet(e, f.Example) {
			return other
		}
	}
	return id
}

// inSet reports whether an example is one of a finding's configurations. A trait that
// the platform never has may be left out of it.
func (k *checker) inSet(e *expected, x *example) bool {
	return slices.ContainsFunc(e.set, func(i int) bool {
		g := e.world.configs[i]
		if g.year != x.Year {
			return false
		}
		for t, of := range k.c.traits {
			v := x.Traits[of.name]
			if (v == nil) != (g.vals[t] == never) || v != nil && *v != of.values[g.vals[t]].name {
				return false
			}
		}
		return true
	})
}

// named compares the cells of a finding where they are known.
func (k *checker) named(e *expected, f finding) {
	if e.cells == nil {
		return
	}
	got := slices.Clone(f.Cells)
	sort.Slice(got, func(i, j int) bool { return got[i].String() < got[j].String() })
	if !slices.Equal(got, e.cells) {
		k.failf(f.Code, "%v: cells %v, want %v", e.key, got, e.cells)
	}
}

// limits compares what is said of parts, limits and facts as such.
func (k *checker) limits() {
	want := k.idealLimits()
	for _, f := range k.out.findings {
		if !slices.Contains(limitCodes(), f.Code) {
			continue
		}
		i := slices.IndexFunc(want, func(w finding) bool { return w.Code == f.Code && w.Cells[0] == f.Cells[0] })
		if i < 0 {
			k.failf(f.Code, "not expected: %v: %s", f.Cells, f.Message)
			continue
		}
		if w := want[i]; w.Severity != f.Severity || w.Part != f.Part || f.Platform != "" {
			k.failf(f.Code, "%v: %s of part %q, want %s of %q: %s", f.Cells, f.Severity, f.Part, w.Severity, w.Part, f.Message)
		}
		want = slices.Delete(want, i, i+1)
	}
	for _, f := range want {
		k.failf(f.Code, "not told: %v, %s of %q", f.Cells, f.Severity, f.Part)
	}
}

func limitCodes() []string {
	return []string{"property-missing", "calculated-undefined", "calculated-unused", "limit-unused", "fact-unused"}
}

// idealLimits lists what must be said of parts, limits and facts as such.
func (k *checker) idealLimits() []finding {
	var out []finding
	add := func(code, severity, part string, at ref) {
		out = append(out, finding{Code: code, Severity: severity, Message: "it is so", Part: part, Cells: []ref{at}})
	}
	for at, of := range k.o.lacks {
		severity := "warning"
		for l := range of {
			if !l.warning {
				severity = "error"
			}
		}
		cell, column := k.c.part(at.part).at[at.property]
		if !column { // a value that is calculated for parts of another family
			cell = k.c.part(at.part).at["Part"]
		}
		add("property-missing", severity, at.part, cell)
	}
	for _, c := range k.c.calculations {
		used := false
		for _, p := range k.c.parts {
			if k.c.calculation(c.name, p) != c {
				continue
			}
			_, ok, missing := k.c.known(p, c.name)
			used = used || ok
			if !ok && len(missing) == 0 && k.c.has(p, c.is.names()) {
				add("calculated-undefined", "error", p.name, c.at["Formula"])
			}
		}
		if !used {
			add("calculated-unused", "note", "", c.at["Name"])
		}
	}
	broken, named := false, map[*fact]bool{}
	for _, l := range k.c.limits {
		if l.gone {
			continue
		}
		broken = broken || l.broken != ""
		if l.broken == "" && !k.o.called[l] && !k.c.partial(conds{}) {
			add("limit-unused", "note", "", l.at["Limit"])
		}
		_, facts := l.names(k.c)
		for _, f := range facts {
			named[f] = true
		}
	}
	for _, f := range k.c.facts {
		if !broken && !named[f] {
			add("fact-unused", "note", "", k.c.header(f.name))
		}
	}
	return out
}
