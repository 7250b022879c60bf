package sorted

import (
	"fmt"
	"slices"

	"ferrule/compiler/finding"
	"ferrule/compiler/model"
	"ferrule/schema"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// leastPlatforms is on how many platforms rows must ask for what no vehicle has: one cell
// that is wrong concerns one.
const leastPlatforms = 2

// vehicles tells of traits in Vehicles.
func (l *look) vehicles(columns []*Column) []*finding.Finding {
	var out []*finding.Finding
	for _, c := range columns {
		t := l.traits[word.Fold(c.Name)]
		if c.Kind != schema.Vehicles || t == nil || len(c.Cells) < 3 {
			continue
		}
		rows, platforms := l.strange(t)
		if len(platforms) < leastPlatforms {
			continue
		}
		f := told(c, fmt.Sprintf("rows about %s ask for values of it that none of the platform's vehicles has", word.List(platforms, "and")))
		l.owe(f, l.others, func(o *finding.Finding) bool {
			return o.Code == finding.RowUnreachable && rows[o.Cells[0].Place] || broken(o.Code)
		})
		out = append(out, f)
	}
	return out
}

// strange gives the fitment rows that ask for a value of a trait which no vehicle of their
// platform has, and the platforms.
func (l *look) strange(t *model.Trait) (rows map[cell.Place]bool, platforms []string) {
	has := map[*model.Platform]*model.TraitSet{}
	for _, v := range l.cat.Vehicles {
		for _, p := range v.When.On(l.cat) {
			s := on(&v.When, t)
			if before := has[p]; s != nil && before != nil {
				both := before.Or(*s)
				s = &both
			}
			if s != nil {
				has[p] = s
			}
		}
	}
	rows = map[cell.Place]bool{}
	for _, f := range l.cat.Fitments {
		asks := on(&f.When, t)
		if f.When.SetAside || asks == nil || len(f.When.Platforms) != 1 || f.When.Partial(l.cat) {
			continue
		}
		p := f.When.Platforms[0]
		if have := has[p]; have != nil && asks.And(*have).IsEmpty() {
			rows[f.At] = true
			if !slices.Contains(platforms, p.Name) {
				platforms = append(platforms, p.Name)
			}
		}
	}
	return rows, platforms
}

// on gives the values of a trait that a condition names; nil where it leaves it open.
func on(w *model.When, t *model.Trait) *model.TraitSet {
	for i := range w.Traits {
		if w.Traits[i].Trait == t {
			return &w.Traits[i]
		}
	}
	return nil
}

// broken tells what only says that rows of Vehicles and of Breaks do not go together.
func broken(c finding.Code) bool { return c == finding.BreakIdle || c == finding.VehiclesEmpty }
