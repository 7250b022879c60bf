package guide

import (
	"slices"

	"ferrule/compiler/decide"
	"ferrule/compiler/measure"
	"ferrule/compiler/model"
)

// partPage is all that is public of one part or kit.
type partPage struct {
	frame
	Number, Name, Family, Status, Summary string
	Kit                                   bool
	Line, LineOf                          string
	Properties                            []property
	Cautions                              cautions
	Contents                              []item
	Kits                                  []item // that it is in, with how many of it
	ReplacedBy                            []replacement
	Replaces                              []partRef
	References                            []reference
	Fits                                  []platformUses
}

type property struct{ Name, Value string }

// replacement is one step of the chain that leads from a part to what is current.
type replacement struct {
	Part partRef
	Self bool // the page's own part
	By   fit
}

type reference struct{ Number, Source, Kind string }

// platformUses is where a part fits on one platform.
type platformUses struct {
	Platform link
	Rows     []useRow
}

type useRow struct {
	Place       link
	Where       where
	Count       int
	First, More bool     // of several alternatives
	Kit         *partRef // nil: by itself
}

func (s *site) partPage(p *model.Part) *partPage {
	page := &partPage{
		frame:  s.frame(s.partFiles[p], partName(p)),
		Number: p.Number, Name: p.Name, Family: p.Family, Status: p.Status.String(), Summary: p.Summary,
		Kit: p.Kit(), Properties: s.properties(p), Contents: s.contents(p),
		ReplacedBy: s.chain(p), Fits: s.fits(p),
	}
	if p.Line != nil {
		page.Line, page.LineOf = s.size(p.Line), "tube, outside diameter"
		if p.Line.Of == measure.Hose {
			page.LineOf = "hose, inside diameter"
		}
	}
	page.Cautions = cautionsOf(p)
	for _, k := range s.kits[p] {
		page.Kits = append(page.Kits, item{Count: k.Quantity, Part: s.partRef(k.Part)})
	}
	for _, old := range s.replaces[p] {
		page.Replaces = append(page.Replaces, s.partRef(old))
	}
	for _, r := range s.references[p] {
		page.References = append(page.References, reference{r.Number, r.Source, r.Kind})
	}
	return page
}

// cautionsOf gives the part's own cautions, which need not name it, and those of what
// it holds.
func cautionsOf(p *model.Part) cautions {
	var out cautions
	out.addPart(p, 0)
	for i := range out {
		if slices.Contains(out[i].Of, p.Number) {
			out[i].Of = nil
		}
	}
	return out.sorted()
}

func (s *site) properties(p *model.Part) []property {
	var out []property
	for _, q := range p.Properties {
		switch {
		case q.Text == "":
		case q.Quantity.Known():
			out = append(out, property{q.Name, s.quantity(q.Quantity)})
		case q.Unit != "":
			out = append(out, property{q.Name, q.Text + "\u00a0" + q.Unit})
		default:
			out = append(out, property{q.Name, q.Text})
		}
	}
	return out
}

// chain follows what replaces a part, and what replaces that, each part once.
func (s *site) chain(p *model.Part) []replacement {
	var out []replacement
	seen := map[*model.Part]bool{p: true}
	for queue := []*model.Part{p}; len(queue) > 0; queue = queue[1:] {
		old := queue[0]
		if old.ReplacedBy == nil {
			continue
		}
		out = append(out, replacement{Part: s.partRef(old), Self: old == p, By: s.replacedBy(old.ReplacedBy)})
		for _, a := range old.ReplacedBy.Alternatives {
			for _, i := range a {
				if !seen[i.Part] {
					seen[i.Part] = true
					queue = append(queue, i.Part)
				}
			}
		}
	}
	return out
}

func (s *site) replacedBy(f *model.Fits) fit {
	c := decide.Case{Outcome: f.Outcome, Quantity: 1, With: f.With}
	for _, a := range f.Alternatives {
		c.Alternatives = append(c.Alternatives, a.Filled(1))
	}
	if f.Text != "" {
		c.Texts = []string{f.Text}
	}
	out := s.fit(&c, func(p *model.Position) link { return link{Text: p.Name} })
	out.Cautions = nil // they stand on the pages of the parts
	return out
}

func (s *site) fits(p *model.Part) []platformUses {
	var out []platformUses
	var last *decide.Guide
	var has occurring
	for _, u := range s.uses[p] {
		href := "../" + s.platformFiles[u.guide.Platform]
		if u.guide != last {
			last, has = u.guide, occurringOn(u.guide)
			out = append(out, platformUses{Platform: link{u.guide.Platform.Name, href}})
		}
		several := len(u.of.Alternatives) > 1
		on := &out[len(out)-1]
		on.Rows = append(on.Rows, useRow{
			Place: link{u.answer.Position.Name, href + "#" + s.places[u.answer.Position]},
			Where: has.where(u.of.Where), Count: u.count,
			First: several && u.choice == 0, More: several && u.choice > 0, Kit: s.partOrNone(u.kit),
		})
	}
	return out
}
