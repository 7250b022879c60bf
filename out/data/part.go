package data

import (
	"io"

	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/wire"
	"ferrule/out/address"
	"ferrule/out/offer"
)

// partFile is all that is public of one part.
type partFile struct {
	part
	Page       string        `json:"page"`
	Contents   []wire.Item   `json:"contents,omitempty"` // of a kit
	Kits       []kitPlace    `json:"kits,omitempty"`     // that hold it
	Replaces   []string      `json:"replaces,omitempty"`
	References []otherNumber `json:"references,omitempty"`
	Fits       []fit         `json:"fits"`
	// Compatibility holds every rule about the part, or about what it holds.
	Compatibility []partRule      `json:"compatibility,omitempty"`
	Against       []fittedAgainst `json:"fitted_against,omitempty"`
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
	Platform string     `json:"platform"`
	Guide    string     `json:"guide"`
	Position string     `json:"position"`
	Where    []wire.Box `json:"where"`
	Choice   int        `json:"choice"`
	Of       int        `json:"of"`
	Kit      string     `json:"kit,omitempty"`
	Quantity int        `json:"quantity,omitempty"`
}

// partRule is a rule with the platform on which it holds. Of is written where it is about
// parts that a kit holds.
type partRule struct {
	Platform string   `json:"platform"`
	Guide    string   `json:"guide"`
	Of       []string `json:"of,omitempty"`
	wire.Rule
}

// fittedAgainst is a complaint that the part is offered against.
type fittedAgainst struct {
	Complaint  string `json:"complaint"`
	Platform   string `json:"platform"`
	Guide      string `json:"guide"`
	Position   string `json:"position"`
	HowItHelps string `json:"how_it_helps"`
}

// PublicPart writes parts/<part>.json for the world. Addresses are relative to the public
// folder.
func PublicPart(w io.Writer, p *model.Part, rel *model.Relations, offers []offer.Offer, rules []offer.Rule, complaints []offer.Against, at *address.Book) error {
	file := partFile{part: partOf(p), Page: at.Part(p), Fits: make([]fit, len(offers)), Kits: kitPlaces(p, rel), Replaces: replaces(p, rel),
		References: otherNumbers(p, rel)}
	for _, c := range p.Contents {
		file.Contents = append(file.Contents, wire.Item{Part: c.Part.Number, Quantity: c.Quantity})
	}
	for i, o := range offers {
		file.Fits[i] = fit{o.Platform.Name, at.PlatformData(o.Platform), o.Position.Name, wire.Boxes(o.Where),
			o.Choice + 1, o.Of, wire.PartNumber(o.Kit), o.Count}
	}
	for _, r := range rules {
		file.Compatibility = append(file.Compatibility, partRule{r.Platform.Name, at.PlatformData(r.Platform), ofParts(p, r.Of),
			wire.RuleOf(decide.RuleUse{Rule: r.Rule, Where: r.Where})})
	}
	for _, c := range complaints {
		file.Against = append(file.Against, fittedAgainst{c.Name, c.Platform.Name, at.PlatformData(c.Platform), c.At.Name, c.Helps})
	}
	return wire.Write(w, file)
}

// kitPlaces lists the kits that hold a part.
func kitPlaces(p *model.Part, rel *model.Relations) []kitPlace {
	var out []kitPlace
	for _, k := range rel.Kits[p] {
		out = append(out, kitPlace{k.Part.Number, k.Quantity})
	}
	return out
}

// replaces lists the parts that a part takes the place of.
func replaces(p *model.Part, rel *model.Relations) []string {
	var out []string
	for _, old := range rel.Replaces[p] {
		out = append(out, old.Number)
	}
	return out
}

// otherNumbers lists what else a part is called.
func otherNumbers(p *model.Part, rel *model.Relations) []otherNumber {
	var out []otherNumber
	for _, r := range rel.References[p] {
		out = append(out, otherNumber{r.Number, r.Source, r.Kind})
	}
	return out
}

// ofParts names what a rule is about; nothing where that is the part itself.
func ofParts(p *model.Part, of []*model.Part) []string {
	var out []string
	for _, q := range of {
		if q == p {
			return nil
		}
		out = append(out, q.Number)
	}
	return out
}
