package bind

import (
	"fmt"
	"slices"

	"ferrule/compiler/finding"
	"ferrule/compiler/intake/table"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
	"ferrule/schema"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// vehicles reads which vehicles exist. A trait left blank does not apply to them.
func (b *binder) vehicles() {
	b.headers(schema.Vehicles)
	blanks := &blanks{filled: map[*model.Platform]map[*model.Trait]bool{}, dated: map[*model.Platform]int{}}
	for _, t := range b.kinds[schema.Vehicles] {
		traits := b.traitAt(t)
		for i := range t.Records {
			b.vehicleRow(row{t, &t.Records[i]}, traits, blanks)
		}
	}
	blanks.report(b)
	blanks.reportYears(b)
	b.platformsWithout()
}

func (b *binder) vehicleRow(r row, traits []*model.Trait, blanks *blanks) {
	v := &model.Vehicles{Note: r.text("Note"), Road: r.number("On the road"), At: r.first(), RoadAt: r.at("On the road")}
	if _, ok := r.field("Platform"); !ok {
		b.partial(nil, b.told(r.at("Platform")))
		return // the schema says that it is required
	}
	b.first = nil
	said := b.when(r, traits)
	v.When = model.When{Platforms: said.Platforms, Years: said.Years, SetAside: said.SetAside}
	sets := make([]model.TraitSet, len(b.cat.Traits))
	stated, places := make([]bool, len(sets)), make([]cell.Place, len(sets))
	for _, f := range r.r.Fields {
		if t := traits[f.Column]; t != nil {
			stated[t.Index] = true
			sets[t.Index] = b.vehicleSet(r, t, f, &v.When)
		}
	}
	for i, t := range traits {
		if t != nil {
			places[t.Index] = r.t.In(r.r, &r.t.Columns[i])
		}
	}
	for i, t := range b.cat.Traits {
		if !stated[i] {
			sets[i] = withoutTrait(t)
			blanks.note(v, t, r, places[i])
		} else {
			blanks.fill(b.cat, v, t, sets[i])
		}
		v.When.Traits = append(v.When.Traits, sets[i])
	}
	blanks.years(r, v)
	if v.When.SetAside {
		b.partial(said.Platforms, b.blame(r))
	}
	b.outside(r, &v.When)
	b.cat.Vehicles = append(b.cat.Vehicles, v)
}

// partial remembers that a row about vehicles of these platforms was set aside; where it
// can be read so little that it names none, it may be about any. An unknown name is that
// of another platform.
func (b *binder) partial(on []*model.Platform, cause *finding.Finding) {
	if on == nil {
		on = b.cat.Platforms
	}
	for _, p := range on {
		p.Partial = true
		if cause != nil && b.aside[p] == nil {
			b.aside[p] = cause
		}
	}
}

// outside reports the first year at an end of a range that none of the row's platforms
// has: what exists would be less than the row says.
func (b *binder) outside(r row, w *model.When) {
	if w.Years == nil || w.Years.Not {
		return
	}
	on := w.On(b.cat)
	if len(on) == 0 {
		return // the row is about no platform, as has been told
	}
	has := func(year int) bool {
		return year == model.FirstYear || year == model.LastYear ||
			slices.ContainsFunc(on, func(p *model.Platform) bool { return len(p.Years) == 0 || slices.Contains(p.Years, year) })
	}
	for _, s := range w.Years.Spans {
		for _, year := range []int{s.From, s.To} {
			if has(year) {
				continue
			}
			made := make([]string, len(on))
			for i, p := range on {
				made[i] = fmt.Sprintf("%s (%s)", p.Name, model.SpanWords(p.Made()))
			}
			b.say(finding.YearsOutside, finding.Warning, r.at("Years"), "%d is no model year of %s; correct it here, or the platform's Years in Platforms", year, word.List(made, "or"))
			return
		}
	}
}

// vehicleSet gives what a filled cell says in Vehicles: `any` and `not` reach over
// declared values only. What cannot be read has been reported, and the row is set aside.
func (b *binder) vehicleSet(r row, t *model.Trait, f table.Field, w *model.When) model.TraitSet {
	c := b.traitCell(r, f, t)
	out := c.stated(t)
	if c.any {
		return out
	}
	if c.line != nil {
		b.beyond(r.place(f), t, c, w, finding.Error)
	} else if t.Kind.OnLine() {
		out.Line = &model.Line{} // it cannot be read
	}
	return out
}

// stated gives what a cell says where `any` and `not` reach over declared values only.
func (c condition) stated(t *model.Trait) model.TraitSet {
	switch out := (model.TraitSet{Trait: t, Values: c.set, Line: c.line}); {
	case c.any:
		return everyValue(t)
	case c.not:
		out.Values = c.set.And(space.All(len(t.Values)))
		return out
	default:
		return out
	}
}

// withoutTrait is what a blank cell says in Vehicles.
func withoutTrait(t *model.Trait) model.TraitSet {
	out := model.TraitSet{Trait: t, Values: space.SetOf(t.Absent())}
	if t.Kind.OnLine() {
		out.Line = &model.Line{}
	}
	return out
}

// blanks gathers traits left blank, to be held against the platform's other rows.
type blanks struct {
	left []blank
	// undated are rows without Years, and dated counts those with Years, by platform.
	undated []blank
	dated   map[*model.Platform]int
	filled  map[*model.Platform]map[*model.Trait]bool
}

// years notes whether a row says for which years it holds.
func (bl *blanks) years(r row, v *model.Vehicles) {
	if _, ok := r.field("Years"); ok {
		for _, p := range v.When.Platforms {
			bl.dated[p]++
		}
		return
	}
	bl.undated = append(bl.undated, blank{v, nil, r.at("Years")})
}

type blank struct {
	row   *model.Vehicles
	trait *model.Trait
	at    cell.Place
}

func (bl *blanks) note(v *model.Vehicles, t *model.Trait, r row, at cell.Place) {
	if at == (cell.Place{}) {
		at = r.first()
	}
	bl.left = append(bl.left, blank{v, t, at})
}

func (bl *blanks) fill(cat *model.Catalogue, v *model.Vehicles, t *model.Trait, set model.TraitSet) {
	if set.Values.And(space.All(len(t.Values))).Len() == 0 && (set.Line == nil || !set.Line.Not && len(set.Line.Ranges) == 0) {
		return // n/a: said on purpose, and no value
	}
	for _, p := range v.When.On(cat) {
		if bl.filled[p] == nil {
			bl.filled[p] = map[*model.Trait]bool{}
		}
		bl.filled[p][t] = true
	}
}

func (bl *blanks) report(b *binder) {
	for _, l := range bl.left {
		if l.row.When.SetAside {
			continue
		}
		for _, p := range l.row.When.On(b.cat) {
			if bl.filled[p][l.trait] {
				b.say(finding.VehiclesBlank, finding.Warning, l.at, "%s is blank, so it does not apply to these vehicles, while other rows of %s fill it; write n/a if that is meant", l.trait.Name, p.Name)
				break
			}
		}
	}
}

// reportYears tells of rows without Years where as many or more rows of the platform have
// them. Where most have none, that is a way to write: all years are meant.
func (bl *blanks) reportYears(b *binder) {
	without := map[*model.Platform]int{}
	for _, l := range bl.undated {
		for _, p := range l.row.When.Platforms {
			without[p]++
		}
	}
	for _, l := range bl.undated {
		if l.row.When.SetAside {
			continue
		}
		i := slices.IndexFunc(l.row.When.Platforms, func(p *model.Platform) bool { return bl.dated[p] >= without[p] })
		if i < 0 {
			continue
		}
		p := l.row.When.Platforms[i]
		b.say(finding.VehiclesBlank, finding.Warning, l.at, "Years is blank, so the row holds for all years of %s (%s), while other rows say for which; write them, or any if all are meant",
			p.Name, model.SpanWords(p.Made()))
	}
}

// platformsWithout reports platforms of which no vehicle is stated, and those of
// which only some rows say how many are on the road.
func (b *binder) platformsWithout() {
	type rows struct{ all, counted int }
	have := make([]rows, len(b.cat.Platforms))
	for _, v := range b.cat.Vehicles {
		for _, p := range v.When.On(b.cat) {
			have[p.Index].all++
			if v.Road.Stated() {
				have[p.Index].counted++
			}
		}
	}
	for i, p := range b.cat.Platforms {
		switch n := have[i]; {
		case n.all == 0 && b.aside[p] != nil:
			b.aside[p].Owe(finding.VehiclesMissing, 1) // the row that is about it may be one of those
		case n.all == 0 && len(b.kinds[schema.Vehicles]) > 0 && !b.lost(schema.Vehicles):
			b.fail(finding.VehiclesMissing, p.At, "no row of Vehicles is about %s, so nothing can be said of its vehicles; write a row for each kind that exists", p.Name)
		case n.counted > 0 && n.counted < n.all:
			b.Report(&finding.Finding{Code: finding.RoadPartial, Severity: finding.Note, Cells: finding.At(p.At),
				Message:  fmt.Sprintf("%d of the %d Vehicles rows of %s say how many are on the road; the others count 0", n.counted, n.all, p.Name),
				Constant: fmt.Sprintf("some Vehicles rows of %s say how many are on the road", p.Name)})
		}
	}
}
