package pick

import (
	"cmp"
	"slices"

	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
)

// unknown gives the traits of the space that differ among the vehicles.
func (v *vehicles) unknown() []int {
	var out []int
	for t := range v.Traits() {
		if v.Values(v.All, t).Len() > 1 {
			out = append(out, t)
		}
	}
	return out
}

// depends gives traits that settle which way it is, where there are several. Of traits
// that could stand for each other those stay that the ways are told by, then those that
// take less to see. It runs inside Try.
func (v *vehicles) depends(ways []Way, regions []space.Region) []*model.Trait {
	if len(ways) < 2 {
		return nil
	}
	named := v.Mention()
	for _, w := range ways {
		for _, b := range w.Where {
			named.Box(v.bounds(b))
		}
	}
	return v.apart(regions, v.unknown(), named)
}

// apart gives those of some traits that tell regions apart, no fewer of them would: those that are
// named stay first. It runs inside Try.
func (v *vehicles) apart(regions []space.Region, keep []int, named decide.Mention) []*model.Trait {
	drop := slices.Clone(keep)
	slices.Reverse(drop)
	slices.SortStableFunc(drop, func(a, b int) int {
		return cmp.Or(asNumber(named[a])-asNumber(named[b]), v.effort(b)-v.effort(a))
	})
	for _, t := range drop {
		rest := slices.DeleteFunc(slices.Clone(keep), func(k int) bool { return k == t })
		if v.Apart(regions, rest) == space.Empty {
			keep = rest
		}
	}
	out := make([]*model.Trait, len(keep))
	for i, t := range keep {
		out[i] = traitOf(v.Platform, t)
	}
	return out
}

func (v *vehicles) effort(t int) int {
	if t == 0 {
		return 1 // the chassis plate tells it
	}
	return v.Cat.Traits[t-1].Effort
}

func asNumber(b bool) int {
	if b {
		return 1
	}
	return 0
}

// open lists what was not told, with the positions on which it has a say: what takes the
// least to see first.
func (v *vehicles) open(positions []Position) []Open {
	var out []Open
	for _, t := range v.unknown() {
		o := Open{Trait: traitOf(v.Platform, t), Values: only(v.Platform, t, v.Values(v.All, t))}
		for _, p := range positions {
			if slices.Contains(p.Depends, o.Trait) {
				o.Positions = append(o.Positions, Dependent{p.Position, len(p.Ways)})
			}
		}
		out = append(out, o)
	}
	slices.SortStableFunc(out, func(a, b Open) int { return cmp.Compare(v.effortOf(a.Trait), v.effortOf(b.Trait)) })
	return out
}

// effortOf is what it takes to see a trait on the platform; nil is the model year.
func (v *vehicles) effortOf(t *model.Trait) int {
	if t == nil {
		return v.Cat.YearEffort(v.Model)
	}
	return t.EffortOn(v.Model)
}
