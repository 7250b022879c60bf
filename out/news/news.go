// Package news says what has changed since an earlier release, platform by platform, as
// far as the world may know it: where a part is offered now and was not, where another
// one is, and where none is any more.
//
// It is compiler/release/compare's difference, sorted, without what is internal: no counts, no
// cells, nothing of acceptances, and no part of a fit that is or was not settled.
package news

import (
	"cmp"
	"slices"

	"ferrule/compiler/finding"
	"ferrule/compiler/model"
	"ferrule/compiler/release/compare"
)

// News is all that has changed.
type News struct {
	Since     string // what the earlier release was called, "" for no name
	Renames   []Rename
	Platforms []*Platform // in the order of the catalogue, then what is no longer listed
}

// Rename is a name of the earlier release and what it is now.
type Rename struct {
	What     string // platform, trait, value, position or part
	Trait    string // of a value
	Old, New string
}

// Platform is what has changed on one platform.
type Platform struct {
	Name      string
	New, Gone bool // there is no such platform in the earlier release, or in this one
	// Traits that vehicles are told apart by now, or no longer.
	Asked, Unasked []string
	Appeared       *Vehicles // vehicles that only this release lists; nil: none
	Vanished       *Vehicles // vehicles that only the earlier release listed; nil: none
	Covered        []Change  // a part is offered now where none was
	Changed        []Change  // something else is said
	Withdrawn      []Change  // no part is offered any more, or it is not settled which
	Unknown        bool      // not everything could be compared
}

// Vehicles is a set of them, in tight boxes. Where it is long, More says that Where does not list all.
type Vehicles struct {
	Where []model.Box
	More  bool
}

// Change is a position with what was said of some vehicles and what is said now.
type Change struct {
	Position    string
	Vehicles    Vehicles
	Before, Now Answer
}

// Answer is what a release says. Parts of a fit that is not settled are left out.
type Answer struct {
	Exists       bool // false: the position is not there
	Outcome      model.Outcome
	Settled      bool // false: cells disagree, or a check has found the fit wrong
	Alternatives []model.Alternative
	With         *model.Position
}

// Of sorts a difference between an earlier release, called since, and the one of cat.
func Of(d *compare.Diff, since string, cat *model.Catalogue) *News {
	n := &News{Since: since}
	at := map[string]*Platform{}
	on := func(name string) *Platform {
		p := at[name]
		if p == nil {
			p = &Platform{Name: name}
			at[name] = p
			n.Platforms = append(n.Platforms, p)
		}
		return p
	}
	for _, r := range d.Renames {
		n.Renames = append(n.Renames, Rename{r.What.String(), r.Trait, r.Old, r.New})
	}
	for _, f := range d.Fleets {
		on(f.Platform).fleet(f)
	}
	for _, s := range d.Splits {
		if p := on(s.Platform); s.Dropped {
			p.Unasked = append(p.Unasked, s.Trait)
		} else {
			p.Asked = append(p.Asked, s.Trait)
		}
	}
	for _, c := range d.Changes {
		on(c.Platform).change(c)
	}
	for _, i := range d.Irregular {
		on(i.Platform).Unknown = true
	}
	n.sort(cat)
	return n
}

// sort puts the platforms into the order of the catalogue; what it does not list stays
// as it came, behind.
func (n *News) sort(cat *model.Catalogue) {
	place := map[string]int{}
	for i, p := range cat.Platforms {
		place[p.Name] = i
	}
	of := func(p *Platform) int {
		if i, ok := place[p.Name]; ok {
			return i
		}
		return len(cat.Platforms)
	}
	slices.SortStableFunc(n.Platforms, func(a, b *Platform) int { return cmp.Compare(of(a), of(b)) })
}

// Renamed lists the platforms and parts that are called otherwise.
func (n *News) Renamed() (out []Rename) {
	if n == nil {
		return nil
	}
	for _, r := range n.Renames {
		if r.What == compare.Platform.String() || r.What == compare.Part.String() {
			out = append(out, r)
		}
	}
	return out
}

// Find gives what has changed on a platform, nil for nothing. n may be nil.
func (n *News) Find(platform string) *Platform {
	if n == nil {
		return nil
	}
	for _, p := range n.Platforms {
		if p.Name == platform {
			return p
		}
	}
	return nil
}

func (p *Platform) fleet(f compare.Fleet) {
	if f.Kind == compare.Appeared {
		p.Appeared, p.New = vehicles(f.Region), f.Whole
	} else {
		p.Vanished, p.Gone = vehicles(f.Region), f.Whole
	}
}

func (p *Platform) change(c compare.Change) {
	list := &p.Changed
	switch c.Kind {
	case compare.Gained, compare.Settled:
		list = &p.Covered
	case compare.Lost, compare.Unsettled, compare.Conflict:
		list = &p.Withdrawn
	}
	out := Change{c.Position, *vehicles(c.Region), answer(c.Old), answer(c.New)}
	// What somebody has accepted is told apart by compare, and to nobody here.
	for i := range *list {
		if known := &(*list)[i]; known.Position == out.Position && same(known.Before, out.Before) && same(known.Now, out.Now) {
			known.Vehicles.Where = append(slices.Clip(known.Vehicles.Where), out.Vehicles.Where...)
			known.Vehicles.More = known.Vehicles.More || out.Vehicles.More
			return
		}
	}
	*list = append(*list, out)
}

func same(a, b Answer) bool {
	return a.Exists == b.Exists && a.Outcome == b.Outcome && a.Settled == b.Settled && a.With == b.With &&
		slices.EqualFunc(a.Alternatives, b.Alternatives, func(x, y model.Alternative) bool { return slices.Equal(x, y) })
}

func vehicles(r *finding.Region) *Vehicles { return &Vehicles{r.Tight, r.Rest != nil} }

func answer(a compare.Answer) Answer {
	out := Answer{Exists: a.Exists, Outcome: a.Outcome, Settled: !a.Unsound()}
	if out.Settled && a.Outcome == model.Fitted {
		out.Alternatives, out.With = a.Alternatives, a.With
	}
	return out
}
