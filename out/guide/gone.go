package guide

import (
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/out/address"
	"ferrule/schema/word"
)

// gonePage stands where an earlier release had a page.
type gonePage struct {
	frame
	Part      bool // a part had the page, else a platform
	Number    string
	Name      string
	Withdrawn bool
	By        *fit  // what replaces the part, as the earlier release said; nil: unknown
	Now       *link // what stands in its place: the part whose former number it is or that is called otherwise now, or the platform under its new name
}

// writeGone makes a page for everything that had one and has none.
func (s *site) writeGone(print func(page) error) error {
	gone := s.book.Gone()
	if len(gone) == 0 {
		return nil
	}
	renamed := map[string]*model.Part{}
	for _, r := range s.cat.References {
		if r.Kind == "former" && r.Part != nil {
			renamed[word.Fold(r.Number)] = r.Part
		}
	}
	platforms := map[string]*model.Platform{}
	for _, p := range s.cat.Platforms {
		platforms[p.Name] = p
	}
	for _, g := range gone {
		p := s.gonePage(g)
		if now := s.now[g.Now]; p.Part && s.partFiles[now] != "" {
			p.Now = &link{partName(now), p.Root + s.partFiles[now]}
		}
		if now := renamed[word.Fold(g.Name)]; p.Part && s.partFiles[now] != "" {
			p.leads(partName(now), s.partFiles[now])
		}
		if now := platforms[g.Now]; !p.Part && now != nil {
			p.leads(now.Name, s.platformFiles[now])
		}
		if err := print(p); err != nil {
			return err
		}
	}
	return nil
}

// leads makes the page one that leads on at once.
func (p *gonePage) leads(name, file string) {
	p.Now = &link{name, p.Root + file}
	p.Refresh = p.Now.Href
}

func (s *site) gonePage(g address.Page) *gonePage {
	p := &gonePage{frame: s.frame(g.Page, g.Name), Part: g.Kind == address.KindPart, Number: g.Name, Name: g.Label,
		Withdrawn: g.Status == model.Withdrawn.String()}
	p.NoIndex, p.Canonical = true, ""
	if len(g.ReplacedBy) > 0 {
		c := decide.Case{Outcome: model.Fitted, Quantity: 1}
		for _, a := range g.ReplacedBy {
			c.Alternatives = append(c.Alternatives, s.alternative(a))
		}
		by := s.fit(&c, nil)
		by.Cautions = nil // they stand on the pages of the parts
		p.By = &by
	}
	return p
}

// alternative finds the parts of an earlier release; one that has gone as well is told
// without a link.
func (s *site) alternative(items []address.Item) model.Alternative {
	var out model.Alternative
	for _, i := range items {
		p := s.now[i.Part]
		if p == nil {
			p = &model.Part{Number: i.Part}
		}
		out = append(out, model.Item{Part: p, Quantity: i.Quantity})
	}
	return out
}
