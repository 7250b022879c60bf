package offer

import (
	"cmp"
	"encoding/binary"
	"slices"

	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
)

// Against is a complaint that a part, by itself or in a kit, is offered against at a position of
// a platform.
type Against struct {
	*model.Complaint
	Platform *model.Platform
	At       *model.Position
}

// against lists what the offers of one answer are offered against, each part of a row once.
func (l *Store) against(g *decide.Guide, parts []*model.Part, offers []*Offer) []entry {
	var out []entry
	exist := g.Exist()
	for n, u := range g.Complaints {
		row, known := l.complaint[u.Row]
		for _, place := range u.Places {
			var told []*model.Part
			in := g.Of(place.Where...)
			for i, p := range parts {
				id, ok := l.part[p]
				if !known || !ok || offers[i].Position != place.Position || slices.Contains(told, p) || !u.Row.About(p) {
					continue
				}
				if slices.ContainsFunc(offers[i].Where, func(b model.Box) bool { return exist.Among(b).Meet(in) }) {
					told = append(told, p)
					text := binary.AppendVarint(nil, int64(n))
					out = append(out, entry{&l.lastAgainst[id], binary.AppendVarint(binary.AppendVarint(text, int64(row)), int64(place.Position.Index))})
				}
			}
		}
	}
	return out
}

// Against lists what a part is offered against, platforms in the order of the catalogue, and on
// each complaints and places as its guide has them.
func (l *Store) Against(p *model.Part) ([]Against, error) {
	id, ok := l.part[p]
	if !ok {
		return nil, nil
	}
	type ranked struct {
		Against
		rank int
	}
	var list []ranked
	err := l.each(&l.lastAgainst[id], func(on *model.Platform, text []byte) {
		r := reader{text}
		rank := r.int()
		list = append(list, ranked{Against{l.cat.Complaints[r.int()], on, l.cat.Positions[r.int()]}, rank})
	})
	if err != nil {
		return nil, err
	}
	slices.Reverse(list)
	slices.SortStableFunc(list, func(a, b ranked) int {
		return cmp.Or(cmp.Compare(a.Platform.Index, b.Platform.Index), cmp.Compare(a.rank, b.rank))
	})
	out := make([]Against, len(list))
	for i, x := range list {
		out[i] = x.Against
	}
	return out, nil
}
