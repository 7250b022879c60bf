package guide

import (
	"slices"

	"ferrule/compiler/decide"
	"ferrule/compiler/measure"
	"ferrule/compiler/model"
	"ferrule/out/offer"
)

// partPage is all that is public of one part or kit.
type partPage struct {
	frame
	Number, Name, Family, Status, Summary string
	Kit                                   bool
	Picture                               *image
	Line, LineOf                          string
	Properties                            []property
	Cautions                              cautions
	Contents                              []item
	Kits                                  []item // that it is in, with how many of it
	ReplacedBy                            []replacement
	Replaces                              []partRef
	References                            []reference
	Fits                                  []platformUses
	Beyond                                []beyond // platforms for which there is no room in Fits
	Product                               *product // as search engines read it; nil in drafts
}

type property struct {
	Name, Value     string
	Formula, Source string // of a value that is calculated
}

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
	Wheres      []where // none: all vehicles of the platform
	Count       int
	First, More bool     // of several alternatives
	Kit         *partRef // nil: by itself
}

// beyond is a platform of which only the places are named.
type beyond struct {
	Platform link
	Places   []link
}

// rowsAtMost is how many rows say in full where a part fits. A bolt may be in kits for
// every place of every platform; the guides say the rest.
const rowsAtMost = 150

func (s *site) partPage(p *model.Part, offers []offer.Offer) *partPage {
	page := &partPage{
		frame:  s.frame(s.partFiles[p], partName(p)),
		Number: p.Number, Name: p.Name, Family: p.Family, Status: p.Status.String(), Summary: p.Summary,
		Kit: p.Kit(), Properties: s.properties(p), Contents: s.contents(p), Picture: s.image(p.Picture, p.Number),
		ReplacedBy: s.chain(p),
	}
	page.Data = s.book.PartData(p)
	page.describe(partDescription(p))
	page.Fits, page.Beyond = s.fits(offers)
	if p.Line != nil {
		page.Line, page.LineOf = s.size(p.Line), "tube, outside diameter"
		switch inside := p.Line.Inside(); {
		case p.Line.Of == measure.Hose:
			page.LineOf = "hose, inside diameter"
		case inside != nil:
			page.LineOf = "tube, outside diameter x wall; " + measure.Decimal(inside, 2) + " mm inside"
		}
	}
	page.Cautions = cautionsOf(p)
	for _, k := range s.relations.Kits[p] {
		page.Kits = append(page.Kits, item{Count: k.Quantity, Part: s.partRef(k.Part)})
	}
	for _, old := range s.relations.Replaces[p] {
		page.Replaces = append(page.Replaces, s.partRef(old))
	}
	for _, r := range s.relations.References[p] {
		page.References = append(page.References, reference{r.Number, r.Source, r.Kind})
	}
	if !s.draft {
		page.Product = s.product(p, offers)
	}
	return page
}

// partDescription says a part in one line, with what it is before what is said of it.
func partDescription(p *model.Part) string {
	words := "Where " + partName(p) + " fits, what replaces it, and its other numbers."
	if p.Summary != "" {
		words = partName(p) + ": " + p.Summary
	}
	return words
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

// fits says where a part is offered, the platforms beyond a number of rows by the names
// of the places alone.
func (s *site) fits(offers []offer.Offer) (full []platformUses, rest []beyond) {
	rows := 0
	for len(offers) > 0 {
		n := 1
		for n < len(offers) && offers[n].Platform == offers[0].Platform {
			n++
		}
		if rows += n; rows <= rowsAtMost || full == nil {
			full = append(full, s.platformUses(offers[:n]))
		} else {
			rest = append(rest, s.beyond(offers[:n]))
		}
		offers = offers[n:]
	}
	return full, rest
}

// platformUses says offers of one platform.
func (s *site) platformUses(offers []offer.Offer) platformUses {
	out := platformUses{Platform: s.platformLink(offers[0].Platform)}
	for _, o := range offers {
		has := occurring{}
		for _, t := range o.Has {
			has[t.Trait] = t.Values
		}
		out.Rows = append(out.Rows, useRow{
			Place: s.placeOn(o.Platform, o.Position), Wheres: has.wheres(o.Where), Count: o.Count,
			First: o.Of > 1 && o.Choice == 0, More: o.Choice > 0, Kit: s.partOrNone(o.Kit),
		})
	}
	return out
}

// beyond names the places of one platform.
func (s *site) beyond(offers []offer.Offer) beyond {
	out := beyond{Platform: s.platformLink(offers[0].Platform)}
	for _, o := range offers {
		if l := s.placeOn(o.Platform, o.Position); !slices.Contains(out.Places, l) {
			out.Places = append(out.Places, l)
		}
	}
	return out
}

// platformLink leads from the page of a part to that of a platform.
func (s *site) platformLink(p *model.Platform) link {
	return link{p.Name, "../" + s.platformFiles[p]}
}

// placeOn leads from the page of a part to a position of a platform.
func (s *site) placeOn(p *model.Platform, pos *model.Position) link {
	return link{pos.Name, "../" + s.platformFiles[p] + "#" + s.places[pos]}
}
