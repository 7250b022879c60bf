package enumerate

import (
	"fmt"
	"strings"
)

// errors compares the errors about single cells: those that the generator put
// there are told, and no others are.
func (k *checker) errors() {
	want := k.mistakes()
	seen := map[ref]bool{}
	for _, f := range k.out.findings {
		if f.Severity != "error" || k.compared(f.Code) {
			continue
		}
		found := false
		for _, at := range f.Cells {
			code, ok := want[at]
			if ok && (code == "" || code == f.Code) {
				seen[at], found = true, true
			}
		}
		if !found {
			k.failf(f.Code, "not expected: %v: %s", f.Cells, f.Message)
		}
	}
	for at, code := range want {
		if !seen[at] {
			k.failf("missing", "no error %s at %v", code, at)
		}
	}
}

// bare lists the cells that say none or ask and no more.
func (c *catalogue) bare() map[ref]bool {
	out := map[ref]bool{}
	for _, f := range c.fits {
		for pos, st := range f.says {
			text := strings.TrimSpace(fmt.Sprint(f.cells[f.columns[pos]]))
			if !f.gone && !st.unreadable && (st.kind == "none" || st.kind == "ask") && !strings.Contains(text, " ") {
				out[f.at[f.columns[pos]]] = true
			}
		}
	}
	return out
}

// reasons compares reason-missing: every cell that says none or ask and no more is told,
// and no other.
func (k *checker) reasons() {
	k.cells("reason-missing", "warning", k.c.bare())
}

// compared are errors that are compared elsewhere, or that a compiler with
// more checks may tell.
func (k *checker) compared(code string) bool {
	switch code {
	case "cell-dragged", "part-out-of-place", "vehicles-empty", "position-conflict", "part-not-current", "property-missing", "calculated-undefined":
		return true
	}
	for _, c := range setCodes() {
		if c == code {
			return true
		}
	}
	return false
}

// mistakes lists the cells with a mistake, with the code where the format
// gives one.
func (k *checker) mistakes() map[ref]string {
	out := map[ref]string{}
	for _, f := range k.c.fits {
		if f.gone {
			continue
		}
		if f.fault != "" {
			out[f.at[f.fault]] = ""
		}
		if f.nowhere {
			out[f.at["Platform"]] = ""
		}
		for pos, st := range f.says {
			if st.unreadable {
				out[f.at[f.columns[pos]]] = ""
			}
			for _, alt := range st.alts {
				for _, it := range alt {
					if !k.c.knows(it.name) {
						out[f.at[f.columns[pos]]] = "part-unknown"
					}
				}
			}
		}
	}
	for _, l := range k.c.limits {
		if !l.gone && l.broken != "" {
			out[l.at[l.broken]] = "formula-malformed"
		}
	}
	note := func(r *row, column string) {
		if !r.gone && column != "" {
			out[r.at[column]] = ""
		}
	}
	for _, r := range k.c.rules {
		note(r.row, r.fault)
	}
	for _, v := range k.c.vehicles {
		note(v.row, v.fault)
	}
	for _, r := range k.c.factRows {
		note(r.row, r.fault)
	}
	for _, p := range k.c.positions {
		for _, r := range p.rows {
			note(r.row, r.fault)
		}
	}
	for _, p := range k.c.parts {
		if k.c.lacksFamily(p) {
			at, column := p.at["Family"]
			if !column { // no part has one
				at = p.first
			}
			out[at] = "family-missing"
		}
	}
	for pos, p := range k.c.positions {
		if other := k.c.opposite(pos); p.pair != "" && k.c.opposite(other) != pos {
			out[p.rows[0].at["Pair"]] = "pair-conflict"
		}
		if other := k.c.opposite(pos); other > pos && k.c.opposite(other) == pos && p.side == k.c.positions[other].side && (p.side == "left" || p.side == "right") {
			at, own := p.rows[0].at["Pair"]
			if !own || p.pair == "" {
				at = k.c.positions[other].rows[0].at["Pair"]
			}
			out[at] = "pair-conflict"
		}
	}
	return out
}

// lacksFamily reports whether a part must have a Family and has none: where a row of
// Compatibility, Limits or Calculated names a family, and where it has a Line size. A kit
// needs none.
func (c *catalogue) lacksFamily(p *part) bool {
	if p.family != "" || c.kit(p.name) != nil {
		return false
	}
	named := p.line != nil
	for _, r := range c.rules {
		named = named || !r.gone && r.family != ""
	}
	for _, l := range c.limits {
		named = named || !l.gone && l.family != ""
	}
	for _, k := range c.calculations {
		named = named || !k.gone && k.family != ""
	}
	return named
}

// summary must count the findings that were told.
func (k *checker) summary() {
	got := map[string]int{"error": 0, "warning": 0, "note": 0, "accepted": 0}
	for _, f := range k.out.findings {
		if f.Accepted != nil {
			got["accepted"]++
		} else {
			got[f.Severity]++
		}
		if f.Message == "" || f.Code == "" {
			k.failf("summary", "a finding without code or message: %+v", f)
		}
	}
	for name, n := range got {
		if k.out.summary[name] != n {
			k.failf("summary", "%s %d, counted %d", name, k.out.summary[name], n)
		}
	}
}
