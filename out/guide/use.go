package guide

import (
	"slices"

	"ferrule/compiler/model"
	"ferrule/out/offer"
)

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
