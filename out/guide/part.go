package guide

import (
	"slices"

	"ferrule/compiler/judge/decide"
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
	Beyond                                []beyond         // platforms for which there is no room in Fits
	Rules                                 []rulesElsewhere // on platforms that are not in Fits
	Against                               []against
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

func (s *site) partPage(p *model.Part, offers []offer.Offer, rules []offer.Rule, complaints []offer.Against) *partPage {
	page := &partPage{
		frame:  s.frame(s.partFiles[p], s.partName(p)),
		Number: p.Number, Name: s.tr(p.Name), Family: s.tr(p.Family), Status: p.Status.String(), Summary: s.tr(p.Summary),
		Kit: p.Kit(), Properties: s.properties(p), Contents: s.contents(p), Picture: s.image(p.Picture, seenOn(s.partName(p), s.tr(p.Summary))),
		ReplacedBy: s.chain(p),
	}
	page.Data = s.book.PartData(p)
	page.describe(s.partDescription(p))
	page.Image = s.share(p.Picture, s.partName(p))
	page.Fits, page.Beyond, page.Rules = s.fits(p, offers, rules)
	page.Against = s.fittedAgainst(complaints)
	if p.Line != nil {
		page.Line, page.LineOf = s.size(p.Line), s.tongue.Say("tube, outside diameter")
		switch inside := p.Line.Inside(); {
		case p.Line.Line == measure.Hose:
			page.LineOf = s.tongue.Say("hose, inside diameter")
		case inside != nil:
			page.LineOf = s.tongue.Say("tube, outside diameter x wall; %s mm inside", s.decimals(measure.Decimal(inside, 2)))
		}
	}
	page.Cautions = s.trCautions(cautionsOf(p))
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
func (s *site) partDescription(p *model.Part) string {
	words := s.tongue.Say("Where %s fits, what replaces it, and its other numbers.", s.partName(p))
	if p.Summary != "" {
		words = s.tongue.Say("%s: %s", s.partName(p), s.tr(p.Summary))
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

// chain says what replaces a part, and what replaces that.
func (s *site) chain(p *model.Part) []replacement {
	var out []replacement
	steps, _ := p.Replaced()
	for _, old := range steps {
		out = append(out, replacement{Part: s.partRef(old), Self: old == p, By: s.replacedBy(old.ReplacedBy)})
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
