package guide

import (
	"ferrule/compiler/model"
	"ferrule/out/offer"
)

// mapsAtMost is how many pictures the page of a part has; a bolt that goes everywhere has none beyond
// these, and its tables say all.
const mapsAtMost = 24

// glances draws where a part fits on one platform, a picture a place, as long as there is room.
func (s *site) glances(offers []offer.Offer, room int) (out []*yearMap) {
	for _, o := range offers {
		if o.Glance == nil || len(out) >= room {
			continue
		}
		if m := s.glance(o); m != nil {
			out = append(out, m)
		}
	}
	return out
}

// glance draws an offer; nil where that tells nothing apart.
func (s *site) glance(o offer.Offer) *yearMap {
	m := &yearMap{Place: s.placeOn(o.Platform, o.Position)}
	has := s.occurringOf(nil)
	if t := o.Glance.By.Trait; t != nil {
		has = s.occurringOf([]model.TraitSet{o.Glance.By})
		m.By = link{t.Name, "../" + s.platformFiles[o.Platform] + "#" + s.traits[t.Declared()]}
	}
	years := o.Platform.Years
	for _, r := range o.Glance.Rows {
		row := mapRow{}
		for _, in := range r.Runs {
			run := s.placed(years, in.Span)
			run.Look = [...]string{offer.Nobody: "nobody", offer.Other: "other", offer.Some: "some", offer.Here: "here"}[in.State]
			run.Label = run.label(share(years, in.To+1) - share(years, in.From))
			row.Runs = append(row.Runs, run)
		}
		if r.Of.Trait != nil {
			if of, says := has.term(r.Of); says {
				row.Of = &of
			}
		}
		m.Rows = append(m.Rows, row)
	}
	return m.finished(years)
}
