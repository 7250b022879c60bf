package enumerate

import "slices"

// offersFamily tells whether a statement offers a part of a family, by itself or in a kit.
func (c *catalogue) offersFamily(st *statement, family string) bool {
	if st == nil || st.unreadable || st.kind != "parts" {
		return false
	}
	for _, items := range st.alts {
		for _, it := range items {
			inside := map[string]bool{}
			c.contents(it.name, inside)
			for name := range inside {
				if p := c.part(name); p != nil && fold(p.family) == fold(family) {
					return true
				}
			}
		}
	}
	return false
}

// leads tells whether a complaint of a configuration leads to a position, and whether something
// there answers it.
func (c *catalogue) leads(w *world, i int, v verdict, pos int, row *complaint) (there, answered bool) {
	if !v.exists || row.position >= 0 && row.position != pos {
		return false, false
	}
	if row.family == "" {
		return true, v.outcome == "fitted" || v.outcome == "ask"
	}
	anywhere := slices.ContainsFunc(c.fits, func(f *fit) bool {
		return !f.gone && f.fault == "" && f.platform.meets(w.platform) && c.offersFamily(f.says[pos], row.family)
	})
	fits := v.outcome == "fitted" && c.offersFamily(v.cells[0].st, row.family)
	return anywhere && v.outcome != "none" && (v.outcome != "fitted" || fits), fits || anywhere && v.outcome == "ask"
}

// advised is what a guide says of one vehicle: by complaint what to check first and the places in their
// order, and what to look at in any case.
type advised struct {
	check, places map[string][]string
	looks         []string
}

func newAdvised() advised { return advised{map[string][]string{}, map[string][]string{}, nil} }

// complained gives the rows of each complaint in the order in which places are looked at.
func (a advice) complained() map[string][]*complaint {
	out := map[string][]*complaint{}
	for _, c := range a.complaints {
		out[c.name] = append(out[c.name], c)
	}
	for _, rows := range out {
		slices.SortStableFunc(rows, func(a, b *complaint) int {
			last := func(n int) int {
				if n == 0 {
					return 99
				}
				return n
			}
			return last(a.order) - last(b.order)
		})
	}
	return out
}

// says works out what is said of one vehicle.
func (a advice) says(c *catalogue, o *outlook, w *world, i int) advised {
	out, g := newAdvised(), w.configs[i]
	for name, rows := range a.complained() {
		for _, row := range rows {
			if !row.meets(w.platform, g) {
				continue
			}
			if row.check != "" && !slices.Contains(out.check[name], row.check) {
				out.check[name] = append(out.check[name], row.check)
			}
			for pos, p := range c.positions {
				if there, _ := c.leads(w, i, o.verdicts[w][i][pos], pos, row); there && !slices.Contains(out.places[name], p.name) {
					out.places[name] = append(out.places[name], p.name)
				}
			}
		}
	}
	for _, level := range []string{"danger", "warning", "notice", "note"} {
		for _, n := range a.inspections {
			if is := n.level == level || n.level == "" && level == "note"; is && n.meets(w.platform, g) && (n.position < 0 || o.verdicts[w][i][n.position].exists) {
				out.looks = append(out.looks, n.look)
			}
		}
	}
	return out
}

// unanswered gives the configurations on which nothing answers a complaint that is about them, as far
// as it is told: where no place of it is unknown by itself.
func (a advice) unanswered(c *catalogue, o *outlook, w *world, rows []*complaint) []int {
	var open []int
	for i, g := range w.configs {
		about, answered, known := false, false, false
		for _, row := range rows {
			if !row.meets(w.platform, g) {
				continue
			}
			about = true
			for pos, p := range c.positions {
				v := o.verdicts[w][i][pos]
				there, answers := c.leads(w, i, v, pos, row)
				answered = answered || there && answers
				known = known || there && (v.outcome == "conflict" || v.outcome == "planned" || v.outcome == "gap" && p.coverage != "optional")
			}
		}
		if about && !answered && !known {
			open = append(open, i)
		}
	}
	return open
}
