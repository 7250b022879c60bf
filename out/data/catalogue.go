package data

import (
	"io"

	"ferrule/compiler/model"
	"ferrule/compiler/wire"
	"ferrule/out/address"
)

type trait struct {
	Trait     string            `json:"trait"`
	Kind      string            `json:"kind"`
	Question  string            `json:"question,omitempty"`
	HowToTell string            `json:"how_to_tell,omitempty"`
	Effort    int               `json:"effort"`
	Called    []string          `json:"also_called,omitempty"`
	Values    []wire.TraitValue `json:"values"`
	Extents   []wire.Extent     `json:"extents,omitempty"` // of serial numbers and dates, in place of values
}

type part struct {
	Part       string          `json:"part"`
	Name       string          `json:"name,omitempty"`
	Family     string          `json:"family,omitempty"`
	Status     string          `json:"status"`
	ReplacedBy *wire.Fits      `json:"replaced_by,omitempty"`
	LineSize   string          `json:"line_size,omitempty"`
	Properties []wire.Property `json:"properties,omitempty"`
	Cautions   []wire.Caution  `json:"cautions,omitempty"`
	Summary    string          `json:"summary,omitempty"`
}

type kit struct {
	Kit   string      `json:"kit"`
	Parts []wire.Item `json:"parts"`
}

// listedPart is a part with the file that tells more of it.
type listedPart struct {
	part
	File string `json:"file"`
}

// PublicCatalogue writes catalogue.json for the world: settings, platforms, traits,
// positions, parts, kits and references, with the files of guides and parts.
func PublicCatalogue(w io.Writer, c *model.Catalogue, at *address.Book) error {
	return wire.WriteLists(w, wire.SettingsOf(&c.Settings),
		wire.ListOf("platforms", c.Platforms, wire.PlatformOf),
		wire.ListOf("traits", c.Traits, catalogueTrait),
		wire.ListOf("positions", c.Positions, wire.PositionOf),
		wire.ListOf("parts", c.Parts, func(p *model.Part) listedPart { return listedPart{partOf(p), at.PartData(p)} }),
		wire.ListOf("kits", wire.Kits(c), kitOf),
		wire.ListOf("references", c.References, wire.ReferenceOf),
		wire.Guides(c, at.PlatformData),
	)
}

func catalogueTrait(t *model.Trait) trait {
	return trait{t.Name, t.Kind.String(), t.Question, wire.Tell(t.Tell, nil), t.Effort, model.Names(t.Called, nil),
		wire.Each(t.Values, func(v *model.Value) wire.TraitValue {
			return wire.TraitValue{Value: v.Name, HowToTell: wire.Tell(v.Tell, nil), Called: model.Names(model.Everywhere(v.Called), nil)}
		}), wire.Each(t.Extents, func(e model.Extent) wire.Extent { return wire.ExtentOf(t, e) })}
}

// partOf gives what the world may know of a part.
func partOf(p *model.Part) part {
	out := part{Part: p.Number, Name: p.Name, Family: p.Family, Status: p.Status.String(),
		ReplacedBy: publicFits(p.ReplacedBy), Cautions: wire.CautionsOf(p.Cautions), Summary: p.Summary}
	if p.Line != nil {
		out.LineSize = p.Line.Text
	}
	for _, q := range p.Properties {
		if q.Public && !q.Refused {
			out.Properties = append(out.Properties, wire.PropertyOf(&q))
		}
	}
	return out
}

func kitOf(p *model.Part) kit {
	return kit{p.Number, wire.Each(p.Contents, func(c model.Component) wire.Item { return wire.Item{Part: c.Part.Number, Quantity: c.Quantity} })}
}

// publicFits tells nothing of planned work but that it is planned.
func publicFits(f *model.Fits) *wire.Fits {
	out := wire.FitsOf(f)
	if f != nil && f.Outcome == model.Planned {
		out.Text = ""
	}
	return out
}
