package data

import (
	"io"

	"ferrule/compiler/model"
	"ferrule/out/address"
	"ferrule/out/offer"
)

// partFile is all that is public of one part.
type partFile struct {
	part
	Page       string        `json:"page"`
	Contents   []item        `json:"contents,omitempty"` // of a kit
	Kits       []kitPlace    `json:"kits,omitempty"`     // that hold it
	Replaces   []string      `json:"replaces,omitempty"`
	References []otherNumber `json:"references,omitempty"`
	Fits       []fit         `json:"fits"`
}

type kitPlace struct {
	Kit      string `json:"kit"`
	Quantity int    `json:"quantity"`
}

type otherNumber struct {
	Number string `json:"number"`
	Source string `json:"source,omitempty"`
	Kind   string `json:"kind,omitempty"`
}

// fit is a place that the part is offered for: as which of how many choices, in which
// kit, and how many. A quantity that is too great to say is left out.
type fit struct {
	Platform string `json:"platform"`
	Guide    string `json:"guide"`
	Position string `json:"position"`
	Where    []box  `json:"where"`
	Choice   int    `json:"choice"`
	Of       int    `json:"of"`
	Kit      string `json:"kit,omitempty"`
	Quantity int    `json:"quantity,omitempty"`
}

// PublicPart writes parts/<part>.json for the world. Addresses are relative to the public
// folder.
func PublicPart(w io.Writer, p *model.Part, rel *model.Relations, offers []offer.Offer, at *address.Book) error {
	file := partFile{part: partOf(p), Page: at.Part(p), Fits: make([]fit, len(offers))}
	for _, c := range p.Contents {
		file.Contents = append(file.Contents, item{c.Part.Number, c.Quantity})
	}
	for _, k := range rel.Kits[p] {
		file.Kits = append(file.Kits, kitPlace{k.Part.Number, k.Quantity})
	}
	for _, old := range rel.Replaces[p] {
		file.Replaces = append(file.Replaces, old.Number)
	}
	for _, r := range rel.References[p] {
		file.References = append(file.References, otherNumber{r.Number, r.Source, r.Kind})
	}
	for i, o := range offers {
		file.Fits[i] = fit{o.Platform.Name, at.PlatformData(o.Platform), o.Position.Name, boxes(o.Where),
			o.Choice + 1, o.Of, partNumber(o.Kit), o.Count}
	}
	return write(w, file)
}
