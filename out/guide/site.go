package guide

import (
	"net/url"
	"strings"

	"ferrule/compiler/decide"
	"ferrule/compiler/model"
	"ferrule/out/slug"
)

// site is the catalogue with its addresses and cross-references, worked out once for
// all pages.
type site struct {
	cat    *model.Catalogue
	guides []*decide.Guide
	draft  bool
	base   string // where the public folder is published, with a slash at its end; or ""

	platformFiles map[*model.Platform]string // paths relative to the public folder
	partFiles     map[*model.Part]string     // no entry for a number that nothing declares
	places        map[*model.Position]string // anchors on platform pages
	traits        map[*model.Trait]string    // the same

	uses       map[*model.Part][]use
	kits       map[*model.Part][]model.Component // the kits that a part is in, and how many
	replaces   map[*model.Part][]*model.Part
	references map[*model.Part][]*model.Reference
}

func newSite(cat *model.Catalogue, guides []*decide.Guide, o Options) *site {
	s := &site{cat: cat, guides: guides, draft: o.Draft, base: baseURL(cat.Settings.BaseURL)}
	s.platformFiles = addresses(cat.Platforms, "platforms/", ".html", func(p *model.Platform) string { return p.Name })
	s.partFiles = addresses(cat.Parts, "parts/", ".html", func(p *model.Part) string { return p.Number })
	s.places = addresses(cat.Positions, "at-", "", func(p *model.Position) string { return p.Name })
	s.traits = addresses(cat.Traits, "trait-", "", func(t *model.Trait) string { return t.Name })
	s.uses = usesOf(guides)
	s.crossReference()
	return s
}

// addresses gives every item a name of its own. All are in lower case, which is
// easier to say on the telephone and to type.
func addresses[T any](items []*T, before, after string, name func(*T) string) map[*T]string {
	names := make([]string, len(items))
	for i, item := range items {
		names[i] = name(item)
	}
	out := make(map[*T]string, len(items))
	for i, file := range slug.Names(names) {
		out[items[i]] = before + strings.ToLower(file) + after
	}
	return out
}

func (s *site) crossReference() {
	s.kits = map[*model.Part][]model.Component{}
	s.replaces = map[*model.Part][]*model.Part{}
	s.references = map[*model.Part][]*model.Reference{}
	for _, p := range s.cat.Parts {
		for _, c := range p.Contents {
			s.kits[c.Part] = append(s.kits[c.Part], model.Component{Part: p, Quantity: c.Quantity})
		}
		if p.ReplacedBy == nil {
			continue
		}
		named := map[*model.Part]bool{}
		for _, a := range p.ReplacedBy.Alternatives {
			for _, i := range a {
				if !named[i.Part] {
					named[i.Part] = true
					s.replaces[i.Part] = append(s.replaces[i.Part], p)
				}
			}
		}
	}
	for _, r := range s.cat.References {
		s.references[r.Part] = append(s.references[r.Part], r)
	}
}

func (s *site) indexFile() string { return "index.html" }

// baseURL gives the setting back if it is an address of the web with no more than a
// path, and nothing otherwise: it is the only text of a workbook that becomes part
// of an address.
func baseURL(setting string) string {
	u, err := url.Parse(strings.TrimSpace(setting))
	if err != nil || u.Host == "" || u.User != nil || u.RawQuery != "" || u.Fragment != "" || u.Opaque != "" {
		return ""
	}
	if u.Scheme != "https" && u.Scheme != "http" {
		return ""
	}
	return strings.TrimRight(u.String(), "/") + "/"
}
