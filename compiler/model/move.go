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
