package decide

import "ferrule/compiler/model"

// Rows calls f for each row that is about a platform: those of Vehicles, Breaks, Fitment,
// Compatibility, Positions, Facts, Complaints and Inspections, always in this order.
func (x *Index) Rows(p *model.Platform, f func(row any)) {
	each(x.vehicles[p.Index], f)
	each(x.breaks[p.Index], f)
	each(x.fitments[p.Index], f)
	each(x.rules[p.Index], f)
	each(x.positions[p.Index], f)
	each(x.facts[p.Index], f)
	each(x.complains[p.Index], f)
	each(x.inspects[p.Index], f)
}

func each[T any](rows []T, f func(row any)) {
	for _, r := range rows {
		f(r)
	}
}
