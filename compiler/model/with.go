package model

// With gives the catalogue with further fitment rows, as if the sheets had them. The
// catalogue itself is not changed.
func (c *Catalogue) With(rows ...*Fitment) *Catalogue {
	out := *c
	out.Fitments = make([]*Fitment, 0, len(c.Fitments)+len(rows))
	out.Fitments = append(append(out.Fitments, c.Fitments...), rows...)
	return &out
}

// Of gives the catalogue with those rows of Vehicles, Fitment, Compatibility, Complaints and Inspections
// that are about a platform: what holds for its vehicles is the same, and less has to be gone
// through.
func (c *Catalogue) Of(p *Platform) *Catalogue {
	out := *c
	out.Vehicles = about(p, c.Vehicles, func(v *Vehicles) *When { return &v.When })
	out.Fitments = about(p, c.Fitments, func(f *Fitment) *When { return &f.When })
	out.Rules = about(p, c.Rules, func(r *Rule) *When { return &r.When })
	out.Complaints = about(p, c.Complaints, func(c *Complaint) *When { return &c.When })
	out.Inspections = about(p, c.Inspections, func(i *Inspection) *When { return &i.When })
	return &out
}

func about[T any](p *Platform, rows []T, when func(T) *When) []T {
	var out []T
	for _, r := range rows {
		if w := when(r); !w.SetAside && w.Concerns(p) {
			out = append(out, r)
		}
	}
	return out
}
