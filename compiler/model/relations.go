package model

// Relations holds what the rows of a catalogue say of a part without being its own.
type Relations struct {
	Kits       map[*Part][]Component // the kits that hold a part, and how many of it
	Replaces   map[*Part][]*Part     // the parts that it replaces
	References map[*Part][]*Reference
}

// NewRelations goes through a catalogue once. All lists are in its order.
func NewRelations(cat *Catalogue) *Relations {
	r := &Relations{Kits: map[*Part][]Component{}, Replaces: map[*Part][]*Part{}, References: map[*Part][]*Reference{}}
	for _, p := range cat.Parts {
		for _, c := range p.Contents {
			r.Kits[c.Part] = append(r.Kits[c.Part], Component{Part: p, Quantity: c.Quantity, At: c.At})
		}
		if p.ReplacedBy == nil {
			continue
		}
		named := map[*Part]bool{}
		for _, a := range p.ReplacedBy.Alternatives {
			for _, i := range a {
				if !named[i.Part] {
					named[i.Part] = true
					r.Replaces[i.Part] = append(r.Replaces[i.Part], p)
				}
			}
		}
	}
	for _, n := range cat.References {
		r.References[n.Part] = append(r.References[n.Part], n)
	}
	return r
}
