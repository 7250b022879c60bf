package enumerate

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestChecker tries the comparison itself: it finds nothing in an output that
// says what was enumerated, and it finds each of the things spoilt below.
func TestChecker(t *testing.T) {
	caught := map[string]int{}
	times := usual(2, 60)
	t.Logf("each thing is spoilt %d times at most", times)
	for seed := range uint64(60) {
		c := generate(seed)
		if c.size() > 250 {
			continue // a box for every configuration takes long to compare
		}
		require.NoError(t, c.write(t.TempDir()))
		o := c.enumerate()
		rest, untold := setAside(compare(c, o, c.ideal(o)))
		require.Empty(t, rest, "seed %d", seed)
		caught["mergeable rows untold"] += untold
		for name, spoil := range spoilers() {
			if caught[name] >= times {
				continue
			}
			out := c.ideal(o)
			if spoil(&out) {
				out.recount() // a wrong sum alone must not give it away
				rest, _ := setAside(compare(c, o, out))
				require.NotEmpty(t, rest, "seed %d: %s went unseen", seed, name)
				caught[name]++
			}
		}
	}
	for name := range spoilers() {
		require.NotZero(t, caught[name], "%s was never tried", name)
	}
	require.NotZero(t, caught["mergeable rows untold"])
}

// setAside takes out what is said of mergeable rows, and counts it: the output
// that is tried never tells of any.
func setAside(all []problem) (rest []problem, untold int) {
	for _, p := range all {
		if p.kind == "rows-mergeable" {
			untold++
		} else {
			rest = append(rest, p)
		}
	}
	return rest, untold
}

// size is how many configurations there are.
func (c *catalogue) size() int {
	n := 0
	for _, w := range c.worlds() {
		n += len(w.configs)
	}
	return n
}

// spoilers each make one thing wrong and report whether they could.
func spoilers() map[string]func(*output) bool {
	return map[string]func(*output) bool{
		"a finding dropped": func(out *output) bool {
			return dropFirst(out, func(f finding) bool { return f.Configurations > 0 })
		},
		"an unreachable row dropped": func(out *output) bool {
			return dropFirst(out, func(f finding) bool { return f.Code == "row-unreachable" })
		},
		"an unused part dropped": func(out *output) bool {
			return dropFirst(out, func(f finding) bool { return f.Code == "part-unused" })
		},
		"an unused position dropped": func(out *output) bool {
			return dropFirst(out, func(f finding) bool { return f.Code == "position-unused" })
		},
		"an unused trait dropped": func(out *output) bool {
			return dropFirst(out, func(f finding) bool { return f.Code == "trait-unused" })
		},
		"a redundant cell twice": func(out *output) bool {
			at := slices.IndexFunc(out.findings, func(f finding) bool { return f.Code == "cell-redundant" })
			if at >= 0 {
				out.findings = append(out.findings, out.findings[at])
			}
			return at >= 0
		},
		"an unreachable row told as redundant": func(out *output) bool {
			return change(out, func(f *finding) bool { return f.Code == "row-unreachable" }, func(f *finding) {
				out.findings = append(out.findings, finding{Code: "cell-redundant", Severity: "note", Message: "so", Cells: f.Cells})
			})
		},
		"company unseen": func(out *output) bool {
			return dropFirst(out, func(f finding) bool { return f.Code == "companion-missing" || f.Code == "companion-forbidden" })
		},
		"an overlap unseen": func(out *output) bool {
			return dropFirst(out, func(f finding) bool { return f.Code == "vehicles-overlap" })
		},
		"a side unseen": func(out *output) bool {
			return dropFirst(out, func(f finding) bool { return f.Code == "side-missing" || f.Code == "side-quantity" })
		},
		"a year ahead unseen": func(out *output) bool {
			return dropFirst(out, func(f finding) bool { return f.Code == "years-ahead" })
		},
		"a part out of place unseen": func(out *output) bool {
			return dropFirst(out, func(f finding) bool { return f.Code == "part-out-of-place" && f.Severity == "error" })
		},
		"a dragged cell unseen": func(out *output) bool {
			return dropFirst(out, func(f finding) bool { return f.Code == "cell-dragged" })
		},
		"a dragged cell too many": func(out *output) bool {
			return change(out, func(f *finding) bool { return f.Code == "cell-dragged" }, func(f *finding) { f.Cells = f.Cells[:2] })
		},
		"a quantity unseen": func(out *output) bool {
			return dropFirst(out, func(f finding) bool { return f.Code == "quantity-odd" })
		},
		"unlike sides unseen": func(out *output) bool {
			return dropFirst(out, func(f finding) bool { return f.Code == "sides-differ" })
		},
		"positions that are no pair unseen": func(out *output) bool {
			return dropFirst(out, func(f finding) bool { return f.Code == "pair-conflict" })
		},
		"a near miss unseen": func(out *output) bool {
			return dropFirst(out, func(f finding) bool { return f.Code == "size-near-miss" })
		},
		"a near miss told twice": func(out *output) bool {
			return change(out, func(f *finding) bool { return f.Code == "size-near-miss" }, func(f *finding) { out.findings = append(out.findings, *f) })
		},
		"what looks alike unseen": func(out *output) bool {
			return dropFirst(out, func(f finding) bool { return f.Code == "indistinguishable" || f.Code == "coverage-thin" })
		},
		"a broken limit unseen": func(out *output) bool {
			return dropFirst(out, func(f finding) bool { return f.Code == "limit-broken" || f.Code == "limit-undefined" })
		},
		"a fact unseen": func(out *output) bool {
			return dropFirst(out, func(f finding) bool { return f.Code == "fact-missing" || f.Code == "fact-conflict" })
		},
		"a property unseen": func(out *output) bool {
			return dropFirst(out, func(f finding) bool { return f.Code == "property-missing" })
		},
		"another margin": func(out *output) bool {
			return change(out, func(f *finding) bool { return f.Code == "limit-broken" }, func(f *finding) { f.Message += "9 mm" })
		},
		"a cell of a limit left out": func(out *output) bool {
			return change(out, func(f *finding) bool { return f.Code == "limit-broken" && len(f.Cells) > 2 }, func(f *finding) {
				f.Cells = append([]ref{f.Cells[0]}, f.Cells[2:]...)
			})
		},
		"a clash dropped": func(out *output) bool {
			return dropFirst(out, func(f finding) bool { return f.Code == "position-conflict" })
		},
		"a mistake dropped": func(out *output) bool {
			return dropFirst(out, func(f finding) bool { return f.Code == "part-unknown" || f.Code == "value-invalid" })
		},
		"an acceptance forgotten": func(out *output) bool {
			return change(out, func(f *finding) bool { return f.Accepted != nil }, func(f *finding) { f.Accepted = nil })
		},
		"a box dropped": func(out *output) bool {
			return change(out, func(f *finding) bool { return len(f.Where) > 1 }, func(f *finding) { f.Where = f.Where[1:] })
		},
		"a box too wide": func(out *output) bool {
			all := map[string]int{}
			for _, p := range out.coverage {
				all[p.Platform] = p.Configurations
			}
			return change(out, func(f *finding) bool { return f.Configurations > 0 && f.Configurations < all[f.Platform] },
				func(f *finding) { f.Where = append(f.Where, box{}) })
		},
		"another share": func(out *output) bool {
			return change(out, func(f *finding) bool { return f.OnTheRoad > 0 }, func(f *finding) { f.OnTheRoad *= 1.0001 })
		},
		"another example": func(out *output) bool {
			return change(out, func(f *finding) bool { return f.Example != nil }, func(f *finding) { f.Example.Year++ })
		},
		"another severity": func(out *output) bool {
			return change(out, func(f *finding) bool { return f.Code == "coverage-gap" }, func(f *finding) { f.Severity = "note" })
		},
		"an error too many": func(out *output) bool {
			out.findings = append(out.findings, finding{Code: "cell-error", Severity: "error", Message: "odd"})
			return true
		},
		"another count": func(out *output) bool {
			out.coverage[0].Positions[0].Gap++
			return true
		},
		"a case dropped": func(out *output) bool { return spoilCase(out, func(p *guidePosition, _ int) { p.Cases = p.Cases[1:] }) },
		"a case twice": func(out *output) bool {
			return spoilCase(out, func(p *guidePosition, i int) { p.Cases = append(p.Cases, p.Cases[i]) })
		},
		"another outcome": func(out *output) bool {
			return spoilCase(out, func(p *guidePosition, i int) { p.Cases[i].Outcome = "elsewhere" })
		},
		"another part": func(out *output) bool {
			return spoilCase(out, func(p *guidePosition, i int) {
				p.Cases[i].With = ""
				p.Cases[i].Alternatives = [][]offer{{{"another", 1}}}
			})
		},
	}
}

// dropFirst drops a finding, and others of its kind at the same cells.
func dropFirst(out *output, is func(finding) bool) bool {
	at := slices.IndexFunc(out.findings, is)
	if at < 0 {
		return false
	}
	first := out.findings[at]
	out.findings = slices.DeleteFunc(out.findings, func(f finding) bool {
		return f.Code == first.Code && f.Platform == first.Platform && f.Position == first.Position &&
			(f.Accepted == nil) == (first.Accepted == nil) && slices.Equal(f.Cells, first.Cells)
	})
	return true
}

func change(out *output, is func(*finding) bool, how func(*finding)) bool {
	for i := range out.findings {
		if is(&out.findings[i]) {
			how(&out.findings[i])
			return true
		}
	}
	return false
}

// spoilCase changes the first fitted case of any guide.
func spoilCase(out *output, how func(*guidePosition, int)) bool {
	for _, g := range out.public {
		for p := range g.Positions {
			for i, c := range g.Positions[p].Cases {
				if c.Outcome == "fitted" {
					how(&g.Positions[p], i)
					return true
				}
			}
		}
	}
	return false
}
