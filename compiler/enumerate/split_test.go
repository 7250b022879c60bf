package enumerate

import "slices"

// entry is one finding as it must be printed: what nobody accepted, or what
// one Accepted row quiets.
type entry struct {
	open     []int
	accepted map[*accept][]int // a set may be met by several rows
}

// covers reports whether an Accepted row is about a finding at all.
func (a *accept) covers(e *expected) bool {
	if a.gone || a.expired || a.code != e.code {
		return false
	}
	if a.position != "" && a.position != e.position {
		return false
	}
	return a.part == "" || slices.Contains(e.parts, a.part)
}

// split divides a finding's set between what stays and what is accepted.
func (c *catalogue) split(e *expected) entry {
	if e.parted != nil {
		return *e.parted
	}
	out := entry{accepted: map[*accept][]int{}}
	for _, i := range e.set {
		taken := false
		for _, a := range c.accepts {
			if a.covers(e) && a.meets(e.world.platform, e.world.configs[i]) {
				out.accepted[a] = append(out.accepted[a], i)
				taken = true
			}
		}
		if !taken {
			out.open = append(out.open, i)
		}
	}
	e.parted = &out
	return out
}

// union is every configuration that some row accepts.
func (e entry) union() map[int]bool {
	out := map[int]bool{}
	for _, set := range e.accepted {
		for _, i := range set {
			out[i] = true
		}
	}
	return out
}

// idle lists the Accepted rows that are in force and match no finding.
func (c *catalogue) idle(o *outlook) map[*accept]bool {
	out := map[*accept]bool{}
	for _, a := range c.accepts {
		if !a.gone && !a.expired && !c.partial(a.conds) {
			out[a] = true
		}
	}
	for _, e := range o.findings {
		for a := range c.split(e).accepted {
			delete(out, a)
		}
	}
	return out
}
