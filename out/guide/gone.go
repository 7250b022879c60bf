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
	successor := s.successors()
	for _, g := range gone {
		p := s.gonePage(g)
		if now := s.now[g.Now]; p.Part && s.partFiles[now] != "" {
			p.Now = &link{s.partName(now), p.Root + s.partFiles[now]}
		}
		if name, file := successor(g); name != "" {
			p.leads(name, file)
		}
		if err := print(p); err != nil {
			return err
		}
	}
	return nil
}

// successors tells what stands in the place of what has gone, and its file: the part whose former
// number it is, or the platform under its new name; "" where nothing does.
func (s *site) successors() func(address.Page) (name, file string) {
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
	return func(g address.Page) (name, file string) {
		part, platform := renamed[word.Fold(g.Name)], platforms[g.Now]
		switch {
		case g.Kind == address.KindPart && s.partFiles[part] != "":
			return s.partName(part), s.partFiles[part]
		case g.Kind == address.KindPlatform && platform != nil:
			return platform.Name, s.platformFiles[platform]
		}
		return "", ""
	}
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
