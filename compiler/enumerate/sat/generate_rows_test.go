package sat

import (
	"cmp"
	"fmt"
	"slices"

	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// position adds a place that every vehicle has, or some; with one quantity or more.
func (m *maker) position(i int) {
	p := &model.Position{Index: i, Name: fmt.Sprintf("Position %d", i), Coverage: model.Coverage(max(0, m.IntN(6)-3)), At: m.at("Positions")}
	n := max(1, m.IntN(5)-1)
	t := m.trait()
	for k := range n {
		r := &model.PositionRow{Position: p, Quantity: 1 + k%2, At: p.At}
		if k > 0 {
			r.At = m.at("Positions")
		}
		switch {
		case n > 1 && m.chance(80): // each row has its own values of one trait
			r.When.Traits = []model.TraitSet{{Trait: t, Values: m.residue(t, k, n)}}
		case n > 1 || m.chance(30):
			r.When = m.when(1 + m.IntN(2))
		}
		if m.chance(60) {
			r.AirLine = m.lines[m.IntN(len(m.lines))]
		}
		p.Rows = append(p.Rows, r)
	}
	m.cat.Positions = append(m.cat.Positions, p)
}

func (m *maker) trait() *model.Trait { return m.cat.Traits[m.IntN(len(m.cat.Traits))] }

// residue gives the values v of a trait, 'does not apply' included, with v%n == k.
func (m *maker) residue(t *model.Trait, k, n int) space.Set {
	set := space.Set{}
	for v := k; v <= t.Absent(); v += n {
		set = set.Or(space.SetOf(v))
	}
	return set
}

// when gives a condition on so many traits, and perhaps on the years and the platform.
func (m *maker) when(traits int) model.When {
	p := m.cat.Platforms[m.IntN(len(m.cat.Platforms))]
	w := model.When{Platforms: []*model.Platform{p}, SetAside: m.chance(1)}
	if m.chance(10) {
		w.Platforms = nil
	}
	if m.chance(40) {
		w.Years = m.years(p)
	}
	for range traits {
		if t := m.trait(); !slices.ContainsFunc(w.Traits, func(s model.TraitSet) bool { return s.Trait == t }) {
			w.Traits = append(w.Traits, model.TraitSet{Trait: t, Values: m.some(t.Absent() + 1)})
		}
	}
	slices.SortFunc(w.Traits, func(a, b model.TraitSet) int { return cmp.Compare(a.Trait.Index, b.Trait.Index) })
	return w
}

// fits gives what a cell says: one of a few things for each position, so that cells
// often agree, in the same words or in others.
func (m *maker) fits(pos *model.Position, choices int) *model.Fits {
	k := m.IntN(choices) + pos.Index
	part := func(i int) model.Item { return model.Item{Part: m.cat.Parts[i%len(m.cat.Parts)]} }
	times := func(n int, i model.Item) model.Item { i.Quantity = n; return i }
	f := &model.Fits{Outcome: model.Fitted}
	switch k % 12 {
	case 0, 1, 2:
		f.Alternatives = []model.Alternative{{times(m.IntN(2), part(k))}} // blank or 1
	case 3:
		f.Alternatives = []model.Alternative{{part(k), part(k + 1)}}
		if m.chance(50) {
			slices.Reverse(f.Alternatives[0])
		}
	case 4:
		f.Alternatives = []model.Alternative{{part(k)}, {part(k + 1)}}
		if m.chance(20) {
			slices.Reverse(f.Alternatives)
		}
	case 5:
		f.Alternatives = []model.Alternative{{times(2, part(k))}}
		if m.chance(50) {
			f.Alternatives = []model.Alternative{{times(1, part(k)), times(1, part(k))}}
		}
	case 6:
		f.Outcome, f.Text = model.None, []string{"", "no mounts"}[m.IntN(2)]
	case 7:
		f.Outcome = model.Planned
	case 8:
		f.Outcome, f.Text = model.Ask, "which bracket"
	case 9:
		f.With = m.cat.Positions[(pos.Index+1)%len(m.cat.Positions)]
	default:
		f.Alternatives = []model.Alternative{{part(k)}}
	}
	return f
}

// rule adds a Compatibility row.
func (m *maker) rule() {
	at := m.at("Compatibility")
	r := &model.Rule{When: m.when(m.IntN(3)), Effect: model.Effect(m.IntN(2)), Reason: "they foul", At: at, PartAt: column(at, 1), WithAt: column(at, 3)}
	part := func() *model.Part { return m.cat.Parts[m.IntN(len(m.cat.Parts))] }
	if m.chance(60) {
		r.Part = part()
	} else {
		r.Family = fmt.Sprintf("Family %d", m.IntN(4))
	}
	if r.Effect == model.Require || m.chance(40) {
		r.With = part()
	}
	m.cat.Rules = append(m.cat.Rules, r)
}
