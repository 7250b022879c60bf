package compare

import (
	"context"
	"slices"

	"ferrule/compiler/finding"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/space"
)

// Since gives NEW's findings with those marked as known that OLD has as well. They are
// compared by meaning, so that a cell which moved makes no difference, and under the
// names of NEW. Of a finding about vehicles, which may be several of OLD's, those on
// which OLD has it too are known; where a finding is known on some only, it becomes two.
// A vehicle that OLD does not have is new, and so is a finding whose vehicles are too
// many to be listed whole. What somebody has accepted is left as it is, and an acceptance
// of OLD makes nothing known. What Guard tells stands behind them. The error is the context's.
func Since(ctx context.Context, old, new *Release, before, now []*finding.Finding, o Options) ([]*finding.Finding, error) {
	return until(ctx, func() ([]*finding.Finding, error) { return since(ctx, old, new, before, now, o) })
}

func since(ctx context.Context, old, new *Release, before, now []*finding.Finding, o Options) ([]*finding.Finding, error) {
	c := newComparison(old, new, o)
	if err := c.rename(ctx); err != nil {
		return nil, err
	}
	c.old.found, c.new.found = byPlatform(before), byPlatform(now)
	earlier := c.earlier(before)
	parts := make([][]*finding.Finding, len(now)) // what becomes of each
	regional := map[string][]int{}                // by platform of NEW
	for i, f := range now {
		parts[i] = []*finding.Finding{f}
		known := earlier[f.Fingerprint()]
		switch {
		case f.Accepted != nil || known == nil:
		case f.Region != nil && f.Region.Exact:
			regional[f.Platform] = append(regional[f.Platform], i)
		default:
			parts[i] = []*finding.Finding{marked(f, known.plain > 0)}
			known.plain--
		}
	}
	pairs := slices.DeleteFunc(c.pairs(), func(v versions) bool { return v.old == nil || v.new == nil || len(regional[v.new.Name]) == 0 })
	err := c.each(ctx, len(pairs), func(w *worker, i int) {
		p, err := w.open(pairs[i])
		if err != nil {
			return // all of them are new
		}
		for _, k := range regional[pairs[i].new.Name] {
			parts[k] = p.known(now[k], earlier[now[k].Fingerprint()].regional)
		}
	})
	if err != nil {
		return nil, err
	}
	all := slices.Concat(parts...)
	more, err := c.guard(ctx, all)
	return append(explained(all, more), more...), err
}

// byPlatform groups the findings about certain vehicles under the names of their release.
func byPlatform(fs []*finding.Finding) map[string][]*finding.Finding {
	out := map[string][]*finding.Finding{}
	for _, f := range fs {
		if f.Region != nil && f.Region.Exact {
			out[f.Platform] = append(out[f.Platform], f)
		}
	}
	return out
}

func marked(f *finding.Finding, known bool) *finding.Finding {
	out := *f
	out.Known = known
	return &out
}

// group is all findings of OLD with one fingerprint.
type group struct {
	plain    int // how many are not about certain vehicles
	regional []*finding.Finding
}

// earlier groups what nobody has accepted by its meaning under the names of NEW.
func (c *comparison) earlier(before []*finding.Finding) map[string]*group {
	out := map[string]*group{}
	for _, f := range before {
		if f.Accepted != nil {
			continue
		}
		mark := c.translate(f).Fingerprint()
		g := out[mark]
		if g == nil {
			g = &group{}
			out[mark] = g
		}
		if f.Region != nil && f.Region.Exact {
			g.regional = append(g.regional, f)
		} else {
			g.plain++
		}
	}
	return out
}

// known parts a finding of NEW into the vehicles on which OLD has it too and the others.
func (p *pair) known(f *finding.Finding, before []*finding.Finding) []*finding.Finding {
	if f.Region.Open().Rest != nil {
		return []*finding.Finding{f}
	}
	defer p.Release(p.Mark())
	out := []*finding.Finding{f} // where the budget does not last, it is new
	_ = p.Try(func() {
		here, by := p.where(&p.new, []*finding.Finding{f})
		was, more := p.where(&p.old, before)
		by.Add(more)
		known := p.Intersect(here, p.throughout(was))
		left := p.Minus(here, known)
		switch {
		case known == space.Empty:
		case left == space.Empty:
			out = []*finding.Finding{marked(f, true)}
		default:
			fresh, old := *f, *f
			fresh.Region, old.Region, old.Known = finding.Pack(p.region(left, &p.new, by)), finding.Pack(p.region(known, &p.new, by)), true
			out = []*finding.Finding{&fresh, &old}
		}
	})
	return out
}

// where gives the vehicles of findings of one release, as far as they are listed, with
// the traits that name them.
func (p *pair) where(h *half, fs []*finding.Finding) (space.Region, decide.Mention) {
	var boxes []space.Box
	by := make(decide.Mention, p.Traits())
	for _, f := range fs {
		for _, b := range f.Region.Open().Where {
			box := h.box(b)
			boxes = append(boxes, box)
			by.Box(box)
		}
	}
	return p.Intersect(p.UnionBoxes(boxes), h.all), by
}

// throughout gives the configurations of NEW of which every one that stands for them in
// OLD is in a region of OLD, and at least one is.
func (p *pair) throughout(r space.Region) space.Region {
	shared := p.shared()
	return p.Minus(p.Project(r, shared), p.Project(p.Minus(p.old.all, r), shared))
}
