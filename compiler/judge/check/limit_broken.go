package check

import (
	"fmt"
	"slices"

	"ferrule/compiler/finding"
	"ferrule/compiler/formula"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/judge/limits"
	"ferrule/compiler/space"
	"ferrule/sheets/cell"
)

// maxBroken is how many broken limits are told per position.
const maxBroken = 1000

var limitBroken = &Check{
	Kind: finding.Kind{Code: finding.LimitBroken, Severity: "error, or warning where the limit's Effect is warning",
		Summary: "a part is offered where it breaks a limit",
		Doc:     "The limit was worked out for every part that is offered, by itself or in a kit, with the facts of every vehicle. On these it does not hold, and the message says by how much. A range or a tolerance is taken at its worst: at least holds where the least value on the left is not below the greatest on the right. Where the Effect is error, guides print that this is not settled, also where it is accepted.",
		Before:  "Limits!D2  Extended length - Compressed length  E2  at least  F2  Front wheel travel + 10 mm\nFacts!C4  Front wheel travel 240 mm\nFitment!D4  HD-20   (its stroke is 230 mm)",
		After:   "Fitment!D4  HD-24   (its stroke is 260 mm)"},
	Requires: []Ground{Limits, Facts},
	Position: func(p *Position) {
		var all breaches
		for _, c := range p.claims() {
			p.breach(c, &all)
		}
		for i, b := range all.list {
			if i < maxBroken {
				p.ReportBy(b.finding(p), b.region, b.by)
			}
			if !b.Warning {
				p.unsettle(b.region, b.by, finding.LimitBroken, b.told(i))
			}
		}
		if len(all.list) > maxBroken {
			p.ReportBy(all.rest(p))
		}
	},
}

// breach is a limit that a part breaks with one pair of values.
type breach struct {
	limits.Claim
	formula.Verdict
	region space.Region
	by     decide.Mention
	stated []cell.Place // the cells of the facts
}

// told gives the part that the finding of a breach names: one that is told together
// with others names none.
func (b *breach) told(i int) string {
	if i < maxBroken {
		return b.Part.Number
	}
	return ""
}

// breaches are the findings of one position, in the order in which they came up.
// Several rows can share a cell, since a merged range has the address of its first.
type breaches struct {
	list  []*breach
	index map[breachKey]int
}

type breachKey struct {
	at          cell.Place
	subject     *limits.Subject
	left, right string
}

// breach gathers where a claim is broken. What it is about is kept from being published
// where its facts are disputed, whether or not the part states what the limit needs, and
// where it cannot be worked out.
func (p *Position) breach(c limits.Claim, all *breaches) {
	g := p.on.facts
	if g == nil {
		return
	}
	for _, u := range c.Facts {
		if !c.Warning && g.Disputed[u.Fact] != space.Empty {
			p.Unsettle(p.Intersect(p.Decides(c.Level, c.Cell), g.Disputed[u.Fact]), g.By[u.Fact], decide.Cause{Code: finding.FactConflict})
		}
	}
	if len(c.Lacking) > 0 {
		return
	}
	found := p.on.walker.Suspects(p.Platform, g, c.Subject, c.Cell.Box)
	if len(found) == 0 {
		return
	}
	by := g.Mention(p.Platform, c.Subject)
	for _, chosen := range found {
		region := g.Under(p.Mount, c, chosen)
		if region == space.Empty {
			continue
		}
		v, err := c.Rule.Judge(c.With(p.Platform, chosen))
		if err != nil { // limit-undefined tells it
			if !c.Warning {
				p.unsettle(region, by, finding.LimitUndefined, c.Part.Number)
			}
			continue
		}
		all.add(p, c, v, region, by, chosen)
	}
}

func (b *breaches) add(p *Position, c limits.Claim, v formula.Verdict, region space.Region, by decide.Mention, chosen []int) {
	key := breachKey{c.Cell.At, c.Subject, v.Left.Key(), v.Right.Key()}
	i, ok := b.index[key]
	if !ok {
		if b.index == nil {
			b.index = map[breachKey]int{}
		}
		i = len(b.list)
		b.index[key] = i
		b.list = append(b.list, &breach{Claim: c, Verdict: v, region: space.Empty, by: by})
	}
	at := b.list[i]
	at.region = p.Union(at.region, region)
	for k, u := range c.Facts {
		at.stated = p.appendStated(at.stated, &p.Facts[u.Fact], chosen[k], region)
	}
}

// appendStated adds the cells that decide in a region what a fact is, each once.
func (p *Position) appendStated(to []cell.Place, f *decide.Fact, value int, region space.Region) []cell.Place {
	for i, l := range f.Levels {
		for _, c := range l.Cells {
			if c.Value == value && !slices.Contains(to, c.At) && p.Meets(region, c.Box) &&
				p.Meets(p.Intersect(region, p.FactOpen(f, i)), c.Box) {
				to = append(to, c.At)
			}
		}
	}
	return to
}

func (b *breach) finding(p *Position) finding.Finding {
	r, usual := b.Rule, p.Cat.Settings.System()
	message := fmt.Sprintf("%s at %s breaks the limit %q on these vehicles of %s: %s is %s and must be %s %s, %s; %s",
		b.Part.Number, p.Mount.Position.Name, b.Name, p.Model.Name,
		r.Left.Text, r.Left.Words(b.Left, usual), r.Must, r.Right.Text, r.Right.Words(b.Right, usual), r.Short(b.Verdict, usual))
	if b.Message != "" {
		message += ": " + b.Message
	}
	cells := finding.At(b.Cell.At)
	for _, id := range r.Uses {
		if figure, _ := p.Cat.Term(id); figure != nil {
			if reading, ok := b.Part.Reading(figure); ok {
				for _, at := range reading.From {
					cells = appendCell(cells, at)
				}
			}
		}
	}
	for _, at := range b.stated {
		cells = appendCell(cells, at)
	}
	return finding.Finding{Code: finding.LimitBroken, Severity: severity(b.Limit), Part: b.Part.Number, Message: message,
		Cells: appendCell(cells, b.At),
		Fix:   "offer another part, take these vehicles out of the row, or correct the property, the fact or the limit"}
}

// rest tells all broken limits of a position together where there are too many to
// list.
func (b *breaches) rest(p *Position) (finding.Finding, space.Region, decide.Mention) {
	all, by, worst := space.Empty, p.Mention(), finding.Warning
	for _, one := range b.list {
		all = p.Union(all, one.region)
		by.Add(one.by)
		worst = max(worst, severity(one.Limit))
	}
	return finding.Finding{Code: finding.LimitBroken, Severity: worst,
		Message: fmt.Sprintf("limits are broken in %d ways at %s on %s; the first %d are told one by one, and these are the vehicles of all",
			len(b.list), p.Mount.Position.Name, p.Model.Name, maxBroken),
		Constant: "limits are broken in many ways",
		Cells:    finding.At(p.Mount.Position.At)}, all, by
}
