package guide

import (
	"slices"

	"ferrule/compiler/model"
	"ferrule/compiler/release/compare"
	"ferrule/out/address"
	"ferrule/out/news"
)

// What the pages about changes name, they lead to, as far as it has a place.

// hrefOf leads from the list of changes to what is called otherwise now; "" where it has no place of
// its own.
func (s *site) hrefOf(r news.Rename) string {
	trait := r.New
	switch r.What {
	case address.KindPart:
		return s.partFiles[s.now[r.New]]
	case address.KindPlatform:
		if i := slices.IndexFunc(s.cat.Platforms, func(p *model.Platform) bool { return p.Name == r.New }); i >= 0 {
			return s.platformFiles[s.cat.Platforms[i]]
		}
	case compare.Value.String():
		trait = r.Trait
		fallthrough
	case compare.Trait.String():
		if t := s.traitNamed(trait); t != nil {
			return s.aToZFile() + "#" + s.traits[t]
		}
	}
	return ""
}

func (s *site) traitNamed(name string) *model.Trait {
	if i := slices.IndexFunc(s.cat.Traits, func(t *model.Trait) bool { return t.Name == name }); i >= 0 {
		return s.cat.Traits[i]
	}
	return nil
}

// goneFile gives the page that stands where that of a platform was; "" for none.
func (s *site) goneFile(name string) string {
	for _, g := range s.book.Gone() {
		if g.Kind == address.KindPlatform && g.Name == name {
			return g.Page
		}
	}
	return ""
}

// asking leads from the changes of a platform to how its guide says to tell traits, of those that it
// still asks for.
func (s *site) asking(p *model.Platform, names []string) []link {
	out := make([]link, len(names))
	for i, name := range names {
		out[i].Text = name
		if t := s.traitNamed(name); t != nil && slices.Contains(s.asked[t], p) {
			out[i].Href = s.platformLink(p).Href + "#" + s.traits[t]
		}
	}
	return out
}
