package bind

import (
	"strings"

	"ferrule/compiler/bind/grammar"
	"ferrule/compiler/finding"
	"ferrule/compiler/model"
	"ferrule/schema"
	"ferrule/schema/word"
)

// positions declares the names, so that headers and cells can use them.
func (b *binder) positions() {
	b.headers(schema.Positions)
	b.each(schema.Positions, func(r row) {
		name := r.name("Position")
		if name == "" {
			return
		}
		if _, ok := b.lexicon.Positions.Find(name); ok {
			return
		}
		p := &model.Position{Index: len(b.cat.Positions), Name: name, At: r.at("Position")}
		if kind := clash(name); kind != "" {
			b.fail(finding.ConditionMalformed, p.At, "a position cannot be called %q, since %s sheets have a column of that name; give the position another name", name, schema.Title(kind))
		} else if t, ok := b.lexicon.Traits.Find(name); ok {
			b.Report(&finding.Finding{Code: finding.ConditionMalformed, Severity: finding.Error,
				Message: "a position and a trait are both called " + name + ", and a column of a Fitment sheet could not tell them apart; give one another name",
				Cells:   finding.At(p.At, t.At)})
		}
		b.cat.Positions = append(b.cat.Positions, p)
		b.lexicon.Positions.Add(name, p)
	})
}

// place is what every row of a position must agree on.
type place struct{ axle, side, pair, coverage, family, summary, picture string }

// positionRows reads where positions exist. What differs between the rows of one
// position is its condition, quantity and line; the rest is said once.
func (b *binder) positionRows() {
	first := map[*model.Position]place{}
	told := map[*model.Position]bool{} // that a word of its first row is none that may stand there
	for _, t := range b.kinds[schema.Positions] {
		traits := b.traitAt(t)
		for i := range t.Records {
			r := row{t, &t.Records[i]}
			p, ok := b.lexicon.Positions.Find(r.name("Position"))
			if !ok {
				continue
			}
			now := place{r.oneOf("Axle"), r.oneOf("Side"), word.Fold(r.name("Pair")), r.oneOf("Coverage"), word.Fold(r.name("Family")), r.text("Summary"), r.text("Picture")}
			if old, twice := first[p]; !twice {
				first[p] = now
				told[p] = r.misspelt("Axle", now.axle) || r.misspelt("Side", now.side) || r.misspelt("Coverage", now.coverage)
				b.fillPosition(r, p, now)
			} else if !told[p] && differs(old, now) {
				b.twice("position", p.Name, p.At, r.at("Position"))
			}
			b.positionRow(r, p, traits)
		}
	}
	b.pairs()
}

// differs tells whether a later row says something else than the first; what it
// leaves blank it leaves to the first.
func differs(first, later place) bool {
	pairs := [][2]string{{first.axle, later.axle}, {first.side, later.side}, {first.pair, later.pair},
		{first.coverage, later.coverage}, {first.family, later.family}, {first.summary, later.summary}, {first.picture, later.picture}}
	for _, p := range pairs {
		if p[1] != "" && p[0] != p[1] {
			return true
		}
	}
	return false
}

func (b *binder) fillPosition(r row, p *model.Position, said place) {
	p.Axle, p.Side, p.Summary, p.Picture = said.axle, said.side, said.summary, r.picture()
	switch said.coverage {
	case model.Wanted.String():
		p.Coverage = model.Wanted
	case model.Optional.String():
		p.Coverage = model.Optional
	}
	b.positionFamilies(r, p)
	if name := r.name("Pair"); name != "" {
		pair, ok := b.lexicon.Positions.Find(name)
		switch {
		case !ok:
			b.unknown(finding.ReferenceUnknown, schema.Positions, "position", name, &b.lexicon.Positions, r.at("Pair"))
		case pair == p:
			b.fail(finding.ReferenceUnknown, r.at("Pair"), "%s is named as its own pair; name the position opposite, or leave the cell blank", p.Name)
		default:
			p.Pair, p.PairAt = pair, r.at("Pair")
		}
	}
}

func (b *binder) positionRow(r row, p *model.Position, traits []*model.Trait) {
	b.first = nil
	pr := &model.PositionRow{Position: p, When: b.when(r, traits), Quantity: 1, At: r.first(), LineAt: r.at("Air line")}
	cause := b.first
	if n, ok := r.whole("Quantity"); ok && n > 0 {
		pr.Quantity = min(n, grammar.MaxQuantity)
	}
	if name := r.name("Air line"); name != "" {
		t, ok := b.lexicon.Traits.Find(name)
		switch {
		case !ok:
			b.unknown(finding.ReferenceUnknown, schema.Traits, "trait", name, &b.lexicon.Traits, pr.LineAt)
		case t.Kind != model.Size:
			b.fail(finding.ReferenceUnknown, pr.LineAt, "Air line names %s, whose values are no sizes; name a trait whose Kind is size%s", t.Name, b.sizeTraits())
		default:
			pr.AirLine = t
		}
	}
	p.Rows = append(p.Rows, pr)
	if pr.When.SetAside {
		b.first = cause
		b.Owed.Vacate(p, b.blame(r))
	}
}

func (b *binder) sizeTraits() string {
	var out []string
	for _, t := range b.cat.Traits {
		if t.Kind == model.Size {
			out = append(out, t.Name)
		}
	}
	if len(out) == 0 {
		return ""
	}
	return " (" + strings.Join(out, ", ") + ")"
}
