package model

import (
	"slices"

	"ferrule/schema/word"
)

// Before tells whether value i comes at or before value j in the order that `from`
// and `to` follow: as declared, and for sizes by magnitude. A tube and a hose have no
// order between them.
func (t *Trait) Before(i, j int) bool {
	if t.Kind != Size {
		return i <= j
	}
	a, b := t.Values[i].Size, t.Values[j].Size
	if a.Num == nil || b.Num == nil || a.Line != b.Line {
		return i == j
	}
	return a.MM().Cmp(b.MM()) <= 0
}

// On gives the platforms that the condition is about.
func (w *When) On(cat *Catalogue) []*Platform {
	if w.Platforms == nil {
		return cat.Platforms
	}
	return w.Platforms
}

// Partial tells whether more vehicles than are known may meet the condition: what
// nothing is found to match may be matched by those.
func (w *When) Partial(cat *Catalogue) bool {
	return slices.ContainsFunc(w.On(cat), func(p *Platform) bool { return p.Partial })
}

// About tells whether the row is about a part: it needs both the part and the family
// that it names.
func (r *Rule) About(p *Part) bool {
	return (r.Part == nil || r.Part == p) && (r.Family == "" || word.Fold(r.Family) == word.Fold(p.Family))
}

// Concerns tells whether the condition is about vehicles of a platform.
func (w *When) Concerns(p *Platform) bool {
	return w.Platforms == nil || slices.Contains(w.Platforms, p)
}
