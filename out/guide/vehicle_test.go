package guide_test

import (
	"fmt"
	"slices"
	"strconv"

	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
)

// vehicles lists the configurations of a platform by going through the Vehicles rows, without
// those that the Breaks rows rule out. Of a stretch they have the first number or day.
func vehicles(cat *model.Catalogue, g *decide.Guide) []vehicle {
	var out []vehicle
	seen := map[string]bool{}
	for _, row := range cat.Vehicles {
		if !row.When.Concerns(g.Platform) {
			continue
		}
		all := []vehicle{{}}
		for _, t := range row.When.Traits {
			all = spread(all, on(g, t))
		}
		for _, y := range g.Platform.Years {
			for _, v := range all {
				w := with(v, "Model year", strconv.Itoa(y))
				if key := fmt.Sprint(w); row.When.Years.Has(y) && !seen[key] && built(cat, g, w) {
					seen[key] = true
					out = append(out, w)
				}
			}
		}
	}
	return out
}

// on gives a condition as one on the values of the platform.
func on(g *decide.Guide, c model.TraitSet) model.TraitSet {
	for _, u := range g.Traits {
		if u.Trait.Declared() == c.Trait.Declared() {
			return model.TraitSet{Trait: u.Trait, Values: c.On(u.Trait)}
		}
	}
	return c
}

func with(v vehicle, name, is string) vehicle {
	out := vehicle{name: is}
	for k, x := range v {
		out[k] = x
	}
	return out
}

// spread gives each of some vehicles every value of a set.
func spread(all []vehicle, in model.TraitSet) []vehicle {
	var out []vehicle
	for _, v := range all {
		for value := range in.Values.Values() {
			if value == in.Trait.Absent() {
				out = append(out, v)
				continue
			}
			out = append(out, with(v, in.Trait.Name, model.TraitValue{Trait: in.Trait, Value: value}.Name()))
		}
	}
	return out
}

// built tells whether the Breaks rows leave a vehicle: of each trait, the conditions of one of
// the rows that name its value hold, if any row does.
func built(cat *model.Catalogue, g *decide.Guide, v vehicle) bool {
	for _, t := range cat.Traits {
		named, left := false, false
		for _, b := range cat.Breaks {
			if b.Value.Trait.Declared() == t && b.When.Concerns(g.Platform) && meets(b.Value, g, v) {
				named, left = true, left || holds(&b.When, g, v)
			}
		}
		if named && !left {
			return false
		}
	}
	return true
}

// meets tells whether a vehicle has one of the values of a condition.
func meets(c model.TraitSet, g *decide.Guide, v vehicle) bool {
	local := on(g, c)
	is, applies := v[c.Trait.Name]
	if !applies || is == "n/a" {
		return local.Values.Has(local.Trait.Absent())
	}
	value := slices.IndexFunc(local.Trait.Values, func(x *model.Value) bool {
		return x.Name == is || local.Trait.Kind.OnLine() && within(x.Name, is)
	})
	return value >= 0 && local.Values.Has(value)
}

// within tells whether words are a range of numbers or dates that holds one.
func within(words, is string) bool {
	for _, k := range []model.TraitKind{model.Date, model.Serial} {
		r, err := k.Line().Range(words)
		p, other := k.Line().Value(is)
		if err == nil && other == nil {
			return r.Has(p.First())
		}
	}
	return false
}

// allowed tells whether a published value, or a range of them, is that of a vehicle.
func allowed(published any, is string) bool {
	if ends, ok := published.([]any); ok {
		return within(fmt.Sprintf("%s to %s", ends[0], ends[1]), is)
	}
	return published == is
}
