package offer

import "ferrule/compiler/model"

// Platforms lists those of whose guides something may be written down about a part: where rows
// offer it, or a kit that holds it, or rules are about it or about what it holds. Of no other is
// there anything.
func Platforms(cat *model.Catalogue, p *model.Part) []*model.Platform {
	var inside []*model.Part
	p.Within(func(in *model.Part) { inside = append(inside, in) })
	var out []*model.Platform
	for _, on := range cat.Platforms {
		if ruled(cat, on, inside) || offers(cat, on, p) {
			out = append(out, on)
		}
	}
	return out
}

func ruled(cat *model.Catalogue, on *model.Platform, inside []*model.Part) bool {
	for _, r := range cat.Rules {
		if r.When.Concerns(on) && concerned(r, inside) != nil {
			return true
		}
	}
	return false
}

func offers(cat *model.Catalogue, on *model.Platform, p *model.Part) bool {
	for _, f := range cat.Fitments {
		if !f.When.Concerns(on) {
			continue
		}
		found := false
		for _, c := range f.Cells {
			c.Fits.Parts(func(q *model.Part) { found = found || q == p })
		}
		if found {
			return true
		}
	}
	return false
}
