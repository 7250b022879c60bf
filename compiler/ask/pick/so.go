package pick

import (
	"slices"

	"ferrule/compiler/model"
)

// so gives what follows from what was told: the years of such vehicles, and the values of
// traits that were not told where the platform has others as well. It is nothing where no
// vehicle is such, and where the platform is too irregular to be looked at as a whole.
func (d *Lookup) so(q *Query) model.Box {
	p, err := d.whole(q)
	told := p.Bounds(&q.When)
	if err != nil || !p.Meets(p.All, told) {
		return model.Box{}
	}
	in := p.Tight(told)
	out := model.Box{Traits: in.So}
	if !slices.Equal(in.Years, p.Model.Runs(told.At(0))) {
		out.Years = in.Years
	}
	return out
}
