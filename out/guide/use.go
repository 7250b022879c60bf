package guide

import (
	"slices"

	"ferrule/compiler/model"
	"ferrule/out/offer"
)

// platformUses is where a part fits on one platform.
type platformUses struct {
	Platform link
	Rules    []partRule
	Maps     []*yearMap // of the places, where a picture tells something
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

// fits says where a part is offered and what the rules about it are there, the platforms
// beyond a number of rows by the names of the places alone; and the rules on all platforms
// that are not said in full.
func (s *site) fits(p *model.Part, offers []offer.Offer, rules []offer.Rule) (full []platformUses, rest []beyond, others []rulesElsewhere) {
	rows, maps := 0, 0
	said := map[*model.Platform]bool{}
	for len(offers) > 0 {
		n := 1
		for n < len(offers) && offers[n].Platform == offers[0].Platform {
			n++
		}
		if rows += n; rows <= rowsAtMost || full == nil {
			on := offers[0].Platform
			said[on] = true
			seen := s.glances(offers[:n], mapsAtMost-maps)
			maps += len(seen)
			full = append(full, platformUses{s.platformLink(on), s.partRules(p, rulesOn(rules, on)), seen, s.useRows(offers[:n])})
			s.lacks(on).uses(&full[len(full)-1])
		} else {
			rest = append(rest, s.beyond(offers[:n]))
		}
		offers = offers[n:]
	}
	rules = slices.DeleteFunc(slices.Clone(rules), func(r offer.Rule) bool { return said[r.Platform] })
	return full, rest, s.elsewhere(p, rules)
}

// rulesOn gives the rules on a platform, which stand together.
func rulesOn(rules []offer.Rule, p *model.Platform) []offer.Rule {
	from := slices.IndexFunc(rules, func(r offer.Rule) bool { return r.Platform == p })
	if from < 0 {
		return nil
	}
	to := from
	for to < len(rules) && rules[to].Platform == p {
		to++
	}
	return rules[from:to]
}

// useRows says offers of one platform.
func (s *site) useRows(offers []offer.Offer) []useRow {
	var out []useRow
	for _, o := range offers {
		out = append(out, useRow{
			Place: s.placeOn(o.Platform, o.Position), Wheres: s.occurringOf(o.Has).wheres(o.Where), Count: o.Count,
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
