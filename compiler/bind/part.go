package bind

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"ferrule/compiler/bind/grammar"
	"ferrule/compiler/finding"
	"ferrule/compiler/measure"
	"ferrule/compiler/model"
	"ferrule/schema"
	"ferrule/schema/word"
	"ferrule/sheets/cell"
)

// partNumbers declares every number of the Parts and Kits sheets, so that cells which
// name parts can be read in any order.
func (b *binder) partNumbers() {
	b.headers(schema.Parts)
	for _, t := range b.kinds[schema.Parts] {
		b.nearlyOwn(t)
	}
	b.headers(schema.Kits)
	declare := func(number string, at cell.Place, listed bool, status model.Status) {
		key := word.Fold(number)
		if number == "" || b.parts[key] != nil {
			return
		}
		p := &model.Part{Number: number, Known: true, Listed: listed, At: at, Status: status}
		b.parts[key] = p
		b.partList = append(b.partList, number)
		b.cat.Parts = append(b.cat.Parts, p)
	}
	b.each(schema.Parts, func(r row) { declare(r.name("Part"), r.at("Part"), true, status(r)) })
	b.each(schema.Kits, func(r row) { declare(r.name("Kit"), r.at("Kit"), false, model.Current) })
	b.each(schema.Parts, func(r row) { b.noNumber(r.name("Part"), r.at("Part")) })
	b.each(schema.Kits, func(r row) { b.noNumber(r.name("Kit"), r.at("Kit")) })
	b.each(schema.Parts, func(r row) {
		if f := r.name("Family"); f != "" && !b.family[word.Fold(f)] {
			b.family[word.Fold(f)] = true
			b.families = append(b.families, f)
		}
	})
}

// noNumber reports what is declared as a part number and is a fitment cell: a word that
// says something else there, a quantity, or numbers of which another row declares one.
func (b *binder) noNumber(text string, at cell.Place) {
	why := ""
	number, counted := grammar.Uncounted(text)
	switch folded := word.Fold(text); {
	case slices.Contains([]string{"none", "planned", "tbd", "ask", "any", "n/a"}, folded) || grammar.Dash(text):
		why = "it says something else in other sheets; write the number"
	case counted:
		if b.isPart(number) {
			why = "it is a quantity of another part; write the number alone"
		}
	default:
		pieces := grammar.Severed(text)
		if len(pieces) > 1 && slices.ContainsFunc(pieces, func(p string) bool { return b.isPart(strings.TrimSpace(p)) }) {
			why = "it names several parts; write one number in each row"
		}
	}
	if why != "" {
		b.fail(finding.FitmentMalformed, at, "%q is no part number: %s", text, why)
	}
}

// kits fills kits with their components and takes out those that lead back.
func (b *binder) kits() {
	type pair struct{ kit, part *model.Part }
	seen := map[pair]model.Component{}
	b.each(schema.Kits, func(r row) {
		kit, ok := b.part(r.name("Kit"))
		number := r.name("Part")
		if !ok || number == "" {
			return // the schema says that both are required
		}
		c := model.Component{Part: b.partOr(number, r.at("Part")), Quantity: 1, At: r.at("Part")}
		if n, ok := r.whole("Quantity"); ok && n > 0 {
			c.Quantity = min(n, grammar.MaxQuantity)
		}
		if old, twice := seen[pair{kit, c.Part}]; twice {
			severity := finding.Warning
			if old.Quantity != c.Quantity {
				severity = finding.Error
			}
			b.Report(&finding.Finding{Code: finding.DeclaredTwice, Severity: severity,
				Message: fmt.Sprintf("%s stands twice in kit %s; the first row holds", c.Part.Number, kit.Number),
				Cells:   finding.At(old.At, c.At),
				Fix:     "write one row with how many the kit holds in all"})
			return
		}
		seen[pair{kit, c.Part}] = c
		kit.Contents = append(kit.Contents, c)
	})
	u := uncycler{b: b, on: map[*model.Part]bool{}, done: map[*model.Part]bool{}}
	for _, kit := range b.cat.Parts {
		u.cut(kit)
	}
}

// uncycler goes down kits, each once: below one that is done nothing leads back.
type uncycler struct {
	b    *binder
	way  []*model.Part // to the kit at hand
	on   map[*model.Part]bool
	done map[*model.Part]bool
}

// cut takes out each component that holds a kit on the way to it.
func (u *uncycler) cut(p *model.Part) {
	if u.done[p] {
		return
	}
	u.way, u.on[p] = append(u.way, p), true
	for i := 0; i < len(p.Contents); i++ {
		c := p.Contents[i]
		if u.on[c.Part] {
			at := slices.Index(u.way, c.Part)
			u.b.cycle(finding.KitCycle, "kit", "holds", append(slices.Clone(u.way[at:]), c.Part), c.At)
			p.Contents = slices.Delete(slices.Clone(p.Contents), i, i+1)
			i--
			continue
		}
		u.cut(c.Part)
	}
	u.way, u.on[p], u.done[p] = u.way[:len(u.way)-1], false, true
}

func (b *binder) cycle(code finding.Code, what, verb string, way []*model.Part, at cell.Place) {
	words := make([]string, len(way)-1)
	for i := range words {
		words[i] = fmt.Sprintf("%s %s %s", way[i].Number, verb, way[i+1].Number)
	}
	b.fail(code, at, "%s %s leads back to itself: %s; take one of these steps out", what, way[0].Number, word.List(words, "and"))
}

// said is what a Parts row says, for comparison with another row of the number.
type said struct {
	text string
	part *model.Part
}

// partSheet is what the rows of one Parts sheet have in common.
type partSheet struct {
	first, other *model.Part // with Line sizes in different units
	further      gauges
	figures      []*figureColumn
}

// partRows fills the parts.
func (b *binder) partRows() {
	rows := map[*model.Part]said{}
	for _, t := range b.kinds[schema.Parts] {
		b.unitHeaders(t)
		sheet := &partSheet{further: gauges{}, figures: b.figureColumns(t)}
		for i := range t.Records {
			b.partRow(row{t, &t.Records[i]}, sheet, rows)
		}
		for i := range t.Columns {
			if g := sheet.further[int32(i)]; g != nil {
				b.gauge(g)
			}
		}
	}
	b.readFigures()
	b.replacementCycles()
}

func (b *binder) partRow(r row, sheet *partSheet, rows map[*model.Part]said) {
	p, ok := b.part(r.name("Part"))
	if !ok {
		return
	}
	now := b.wholeRow(r)
	if old, twice := rows[p]; twice {
		if old.text != now {
			b.twice("part", p.Number, p.At, r.at("Part"))
		}
		return
	}
	rows[p] = said{now, p}
	b.fillPart(r, p, sheet.further)
	b.figureCells(r, p, sheet.figures)
	switch {
	case p.Line == nil || p.Line.Num == nil:
	case sheet.first == nil:
		sheet.first = p
	case sheet.other == nil && p.Line.Unit != sheet.first.Line.Unit:
		sheet.other = p
		b.mixedSizes(sheet.first.LineAt, p.LineAt, "Line size")
	}
}

// wholeRow is equal for two rows exactly if they say the same.
func (b *binder) wholeRow(r row) string {
	var s strings.Builder
	for _, f := range r.r.Fields {
		fmt.Fprintf(&s, "%s\x00%s\x00", word.Fold(r.t.Columns[f.Column].Name), strings.Join(strings.Fields(f.Text), " "))
	}
	return s.String()
}

func (b *binder) fillPart(r row, p *model.Part, further gauges) {
	p.At = r.at("Part")
	p.Name, p.Family = r.text("Name"), r.name("Family")
	p.Summary, p.Picture = r.text("Summary"), r.picture()
	p.Cautions = b.cautionKeys(r, "Cautions")
	p.StatusAt, p.LineAt, p.ReplacedAt, p.FamilyAt = r.at("Status"), r.at("Line size"), r.at("Replaced by"), r.at("Family")
	if text := r.text("Replaced by"); text != "" {
		p.ReplacedBy = b.fits(text, p.ReplacedAt)
		b.replacedCurrent(r, p)
	}
	switch size, err := b.size(r, "Line size"); {
	case err == nil && size.Known():
		p.Line = &size
	case errors.Is(err, measure.ErrUnitless):
		// A size without a unit equals nothing; one that cannot be read counts as blank.
		p.Line = &measure.Size{Text: r.text("Line size")}
	}
	for _, f := range r.r.Fields {
		switch c := r.t.Columns[f.Column]; {
		case c.Known:
		case f.Broken:
			b.Owed.Property(r.t.In(r.r, &c), b.told(r.place(f)))
		default:
			b.property(r, f, p, further)
		}
	}
}

// status is what a Parts row says of its part; what cannot be read has been told.
func status(r row) model.Status {
	switch r.word("Status") {
	case model.Superseded.String():
		return model.Superseded
	case model.Withdrawn.String():
		return model.Withdrawn
	}
	return model.Current
}

// replacedCurrent reports a part that is replaced and is current; a Status that cannot be
// read has been told.
func (b *binder) replacedCurrent(r row, p *model.Part) {
	status := r.word("Status")
	if p.ReplacedBy == nil || p.ReplacedBy.Outcome != model.Fitted || status != "" && status != model.Current.String() {
		return
	}
	b.say(finding.ReplacedCurrent, finding.Warning, p.ReplacedAt, "%s names what replaces it, and its Status is current; write superseded or withdrawn under Status, or clear Replaced by", p.Number)
}

// replacementCycles reports parts whose replacement leads back to them, once a ring.
func (b *binder) replacementCycles() {
	done := map[*model.Part]bool{}
	for _, p := range b.cat.Parts {
		b.replacements(p, nil, done)
	}
}

func (b *binder) replacements(p *model.Part, way []*model.Part, done map[*model.Part]bool) {
	if at := slices.Index(way, p); at >= 0 {
		b.cycle(finding.ReplacementCycle, "part", "is replaced by", append(slices.Clone(way[at:]), p), way[len(way)-1].ReplacedAt)
		return
	}
	if done[p] || p.ReplacedBy == nil {
		return
	}
	done[p] = true
	for _, a := range p.ReplacedBy.Alternatives {
		for _, i := range a {
			b.replacements(i.Part, append(way, p), done)
		}
	}
}

func (b *binder) references() {
	b.headers(schema.References)
	seen := map[string]*model.Reference{}
	b.each(schema.References, func(r row) {
		ref := &model.Reference{Number: r.name("Number"), Source: r.text("Source"), Kind: r.oneOf("Kind"), Note: r.text("Note"), At: r.at("Number")}
		part := r.name("Part")
		if ref.Number == "" || part == "" {
			return
		}
		if ref.Kind == "" {
			ref.Kind = "other"
		}
		ref.Part = b.partOr(part, r.at("Part"))
		key := word.Fold(ref.Number) + "\x00" + word.Fold(ref.Source) + "\x00" + word.Fold(part)
		if old, twice := seen[key]; twice {
			if old.Kind != ref.Kind || old.Note != ref.Note {
				b.twice("the reference", ref.Number, old.At, ref.At)
			}
			return
		}
		seen[key] = ref
		b.cat.References = append(b.cat.References, ref)
	})
}
