package data

import (
	"io"

	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/wire"
	"ferrule/out/offer"
)

// whereFile says what numbers stand for, and where the parts are offered.
type whereFile struct {
	Numbers []askedNumber `json:"numbers"`
	Parts   []wherePart   `json:"parts"`
}

// askedNumber is a number as it was asked about. Loosely says that the catalogue writes it
// with other signs between letters and digits.
type askedNumber struct {
	Number  string           `json:"number"`
	Parts   []string         `json:"parts"`      // that have it as their own
	Other   []wire.Reference `json:"references"` // of which it is another number
	Loosely bool             `json:"loosely,omitempty"`
	Nearest string           `json:"did_you_mean,omitempty"`
}

// wherePart is what the catalogue says of one part.
type wherePart struct {
	part
	Contents      []wire.Item   `json:"contents,omitempty"`
	Kits          []kitPlace    `json:"kits,omitempty"`
	Replaced      []replacedBy  `json:"replaced,omitempty"`
	Replaces      []string      `json:"replaces,omitempty"`
	References    []otherNumber `json:"references,omitempty"`
	Fits          []whereFit    `json:"fits"`
	NotSettled    []wherePlace  `json:"not_settled,omitempty"`
	TooIrregular  []wherePlace  `json:"too_irregular,omitempty"`
	Compatibility []whereRule   `json:"compatibility,omitempty"`
}

// replacedBy is a step of the chain from the part to what is current.
type replacedBy struct {
	Part string     `json:"part"`
	By   *wire.Fits `json:"by"`
}

type wherePlace struct {
	Platform string `json:"platform"`
	Position string `json:"position"`
}

// whereFit is a fit, as parts/<part>.json has it, without the file of the guide.
type whereFit struct {
	wherePlace
	Where    []wire.Box `json:"where"`
	Choice   int        `json:"choice"`
	Of       int        `json:"of"`
	Kit      string     `json:"kit,omitempty"`
	Quantity int        `json:"quantity,omitempty"`
}

type whereRule struct {
	Platform string   `json:"platform"`
	Of       []string `json:"of,omitempty"`
	wire.Rule
}

// Where writes what numbers stand for, and where the parts are offered: those asked about, then
// those that have taken their place.
func Where(w io.Writer, asked []offer.Asked, found []offer.Found, rel *model.Relations) error {
	return wire.Write(w, whereFile{wire.Each(asked, askedNumberOf), wire.Each(found, func(f offer.Found) wherePart { return wherePartOf(&f, rel) })})
}

func askedNumberOf(a offer.Asked) askedNumber {
	return askedNumber{a.Number, wire.Each(a.Parts, wire.PartNumber), wire.Each(a.References, wire.ReferenceOf), a.Loosely && !a.None(), a.Nearest}
}

func wherePartOf(f *offer.Found, rel *model.Relations) wherePart {
	out := wherePart{part: partOf(f.Part), Kits: kitPlaces(f.Part, rel), Replaces: replaces(f.Part, rel), References: otherNumbers(f.Part, rel),
		NotSettled: wire.Each(f.Held, wherePlaceOf), TooIrregular: wire.Each(f.Vague, wherePlaceOf)}
	for _, c := range f.Part.Contents {
		out.Contents = append(out.Contents, wire.Item{Part: c.Part.Number, Quantity: c.Quantity})
	}
	steps, _ := f.Part.Replaced()
	out.Replaced = wire.Each(steps, func(p *model.Part) replacedBy { return replacedBy{p.Number, wire.FitsOf(p.ReplacedBy)} })
	out.Fits = wire.Each(f.Offers, func(o offer.Offer) whereFit {
		return whereFit{wherePlace{o.Platform.Name, o.Position.Name}, wire.Boxes(o.Where), o.Choice + 1, o.Of, wire.PartNumber(o.Kit), o.Count}
	})
	for _, r := range f.Rules {
		out.Compatibility = append(out.Compatibility, whereRule{r.Platform.Name, ofParts(f.Part, r.Of), wire.RuleOf(decide.RuleUse{Rule: r.Rule, Where: r.Where})})
	}
	return out
}

func wherePlaceOf(p offer.Place) wherePlace { return wherePlace{p.Platform.Name, p.Position.Name} }
