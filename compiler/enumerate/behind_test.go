package enumerate

import "slices"

// ofOnePart tells the codes of which each part has a finding of its own.
func ofOnePart(code string) bool {
	return slices.Contains([]string{"part-forbidden", "line-size-mismatch", "companion-missing", "companion-forbidden", "limit-broken", "limit-undefined"}, code)
}

// behind gives the findings for which what is fitted at a place is not settled: errors
// about the parts there, and the disputes of facts that a limit about them needs.
func (c *catalogue) behind(o *outlook, at spotAt) []*expected {
	if o.stands == nil {
		o.stands = map[spotAt][]*expected{}
		for _, e := range o.findings {
			if !ofOnePart(e.code) || e.code == "companion-missing" || e.severity != "error" {
				continue
			}
			pos := slices.IndexFunc(c.positions, func(p *position) bool { return p.name == e.position })
			for _, i := range e.set {
				spot := spotAt{e.world, i, pos}
				o.stands[spot] = append(o.stands[spot], e)
			}
		}
		for spot, disputes := range o.doubt {
			for _, k := range disputes {
				o.stands[spot] = append(o.stands[spot], o.findings[k])
			}
		}
	}
	return o.stands[at]
}

// saidBehind gives the findings that stand behind what is said at a place: none behind a
// settled fit, behind `none`, or where nothing has to be said.
func (c *catalogue) saidBehind(o *outlook, at spotAt) []*expected {
	v := o.verdicts[at.world][at.i][at.pos]
	if !v.exists {
		return nil
	}
	if v.outcome == "fitted" {
		return c.behind(o, at)
	}
	code := map[string]string{"gap": "coverage-gap", "planned": "coverage-planned", "ask": "coverage-ask", "conflict": "fitment-conflict"}[v.outcome]
	var out []*expected
	for _, e := range o.findings {
		if e.code == code && e.world == at.world && e.position == c.positions[at.pos].name && holdsInt(e.set, at.i) {
			out = append(out, e)
		}
	}
	return out
}

// acceptedBy gives the rows that accept a finding at a configuration.
func (c *catalogue) acceptedBy(e *expected, i int) []*accept {
	var out []*accept
	for _, a := range c.accepts {
		if a.covers(e) && a.meets(e.world.platform, e.world.configs[i]) {
			out = append(out, a)
		}
	}
	return out
}
