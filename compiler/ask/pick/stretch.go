package pick

import (
	"slices"

	"ferrule/compiler/judge/decide"
	"ferrule/compiler/line"
	"ferrule/compiler/model"
)

// Taken says of the numbers or dates that were told which stretch they are in: of those in it no
// row of a sheet tells one from another.
type Taken struct {
	Trait   *model.Trait
	Told    line.Set
	Stretch line.Range
}

// taken gives the stretches of what was told, where that is less than the stretch and the
// platform has others.
func (d *Lookup) taken(q *Query) []Taken {
	var out []Taken
	for _, t := range q.Closed().Traits {
		if t.Line == nil || t.Values.Has(t.Trait.Absent()) || len(t.Line.Ranges) == 0 {
			continue
		}
		told := t.Line.Ranges
		stretches := t.Trait.Extent(q.Platform).Cut(d.index.Cuts(q.Platform)[t.Trait.Index]...)
		i := slices.IndexFunc(stretches, told[0].In)
		if i < 0 || len(stretches) == 1 || len(told.Without(line.Set{stretches[i]})) > 0 || told.Equal(line.Set{stretches[i]}) {
			continue
		}
		out = append(out, Taken{t.Trait, told, stretches[i]})
	}
	return out
}

// whole makes the space of all vehicles of the platform, in which what was told is a stretch of its
// own.
func (d *Lookup) whole(q *Query) (*decide.Platform, error) {
	index := d.index.Also(d.index.Within(&q.When).Cuts)
	p, err := decide.NewPlatform(index, q.Platform, d.arena, 0)
	d.arena = p.Space
	return p, err
}
