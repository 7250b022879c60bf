package guide

import (
	"ferrule/compiler/decide"
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
	Now       *link // the part that had the number, where it is only another number now
}

// writeGone makes a page for everything that had one and has none.
func (s *site) writeGone(print func(page) error) error {
	gone := s.book.Gone()
	if len(gone) == 0 {
		return nil
	}
	parts := map[string]*model.Part{}
	for _, p := range s.cat.Parts {
		parts[p.Number] = p
	}
	renamed := map[string]*model.Part{}
	for _, r := range s.cat.References {
		if r.Kind == "former" && r.Part != nil {
			renamed[word.Fold(r.Number)] = r.Part
		}
	}
	for _, g := range gone {
		p := s.gonePage(g, parts)
		if now := renamed[word.Fold(g.Name)]; p.Part && s.partFiles[now] != "" {
			p.Now = &link{now.Number, p.Root + s.partFiles[now]}
			p.Refresh = p.Now.Href
		}
		if err := print(p); err != nil {
			return err
		}
	}
	return nil
}

func (s *site) gonePage(g address.Page, parts map[string]*model.Part) *gonePage {
	p := &gonePage{frame: s.frame(g.Page, g.Name), Part: g.Kind == address.KindPart, Number: g.Name, Name: g.Label,
		Withdrawn: g.Status == model.Withdrawn.String()}
	p.NoIndex, p.Canonical = true, ""
	if len(g.ReplacedBy) > 0 {
		c := decide.Case{Outcome: model.Fitted, Quantity: 1}
		for _, a := range g.ReplacedBy {
			c.Alternatives = append(c.Alternatives, alternative(a, parts))
		}
		by := s.fit(&c, nil)
		by.Cautions = nil // they stand on the pages of the parts
		p.By = &by
	}
	return p
}

// alternative finds the parts of an earlier release; one that has gone as well is told
// without a link.
func alternative(items []address.Item, parts map[string]*model.Part) model.Alternative {
	var out model.Alternative
	for _, i := range items {
		p := parts[i.Part]
		if p == nil {
			p = &model.Part{Number: i.Part}
		}
		out = append(out, model.Item{Part: p, Quantity: i.Quantity})
	}
	return out
}
