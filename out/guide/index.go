package guide

import "ferrule/compiler/model"

// indexPage is where a reader starts.
type indexPage struct {
	frame
	Platforms []platformEntry
	Families  []family
}

type platformEntry struct {
	Name, Href, Maker, Years, Summary, Tell string
}

// family is a group of parts under one heading.
type family struct {
	Name  string // "" for parts of no family
	Parts []partRef
}

func (s *site) index() *indexPage {
	p := &indexPage{frame: s.frame(s.indexFile(), "")}
	for _, pl := range s.cat.Platforms {
		p.Platforms = append(p.Platforms, platformEntry{
			Name: pl.Name, Href: s.platformFiles[pl], Maker: pl.Maker,
			Years: yearWords(pl.Years), Summary: pl.Summary, Tell: pl.Tell,
		})
	}
	p.Families = s.families()
	return p
}

// families groups the parts, families in the order of their first part; parts of no
// family come last.
func (s *site) families() []family {
	var names []string
	members := map[string][]partRef{}
	for _, part := range s.cat.Parts {
		if _, ok := members[part.Family]; !ok && part.Family != "" {
			names = append(names, part.Family)
		}
		ref := s.partRef(part)
		ref.Href = s.partFiles[part] // the index is in the public folder itself
		members[part.Family] = append(members[part.Family], ref)
	}
	var out []family
	for _, n := range names {
		out = append(out, family{Name: n, Parts: members[n]})
	}
	if rest := members[""]; rest != nil {
		out = append(out, family{Parts: rest})
	}
	return out
}

// partName is how a part is called where there is room for one line.
func partName(p *model.Part) string {
	if p.Name == "" {
		return p.Number
	}
	return p.Number + " " + p.Name
}
