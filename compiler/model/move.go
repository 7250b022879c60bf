package model

// In gives the trait of another catalogue that declares the same traits; of one that is cut for a
// platform, the same cuts there.
func (t *Trait) In(cat *Catalogue) *Trait {
	if t.declared == nil {
		return cat.Traits[t.Index]
	}
	out := *t
	out.declared = cat.Traits[t.Index]
	return &out
}

// In gives the box in another catalogue that declares the same traits.
func (b Box) In(cat *Catalogue) Box {
	return Box{Years: b.Years, Traits: SetsIn(cat, b.Traits), So: SetsIn(cat, b.So)}
}

// SetsIn gives conditions in another catalogue that declares the same traits.
func SetsIn(cat *Catalogue, sets []TraitSet) []TraitSet {
	if sets == nil {
		return nil
	}
	out := make([]TraitSet, len(sets))
	for i, s := range sets {
		out[i] = TraitSet{Trait: s.Trait.In(cat), Values: s.Values, Line: s.Line}
	}
	return out
}

// In gives the example in another catalogue that declares the same traits.
func (e *Example) In(cat *Catalogue) *Example {
	if e == nil {
		return nil
	}
	out := &Example{Year: e.Year}
	for _, v := range e.Traits {
		out.Traits = append(out.Traits, TraitValue{Trait: v.Trait.In(cat), Value: v.Value})
	}
	return out
}
