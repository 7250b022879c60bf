package data

import (
	"io"

	"ferrule/compiler/model"
	"ferrule/out/address"
)

type settings struct {
	Title     string `json:"title,omitempty"`
	Publisher string `json:"publisher,omitempty"`
	Release   string `json:"release,omitempty"`
	BaseURL   string `json:"base_url,omitempty"`
	Contact   string `json:"contact,omitempty"`
	Units     string `json:"units"`   // in or mm, whichever guides print first
	Decimal   string `json:"decimal"` // . or ,
}

type platform struct {
	Platform  string   `json:"platform"`
	Years     [][2]int `json:"years"`
	Maker     string   `json:"maker,omitempty"`
	Summary   string   `json:"summary,omitempty"`
	HowToTell string   `json:"how_to_tell,omitempty"`
}

type trait struct {
	Trait     string       `json:"trait"`
	Kind      string       `json:"kind"`
	Question  string       `json:"question,omitempty"`
	HowToTell string       `json:"how_to_tell,omitempty"`
	Effort    int          `json:"effort"`
	Values    []guideValue `json:"values"`
}

type part struct {
	Part       string     `json:"part"`
	Name       string     `json:"name,omitempty"`
	Family     string     `json:"family,omitempty"`
	Status     string     `json:"status"`
	ReplacedBy *fits      `json:"replaced_by,omitempty"`
	LineSize   string     `json:"line_size,omitempty"`
	Properties []property `json:"properties,omitempty"`
	Cautions   []caution  `json:"cautions,omitempty"`
	Summary    string     `json:"summary,omitempty"`
}

type kit struct {
	Kit   string `json:"kit"`
	Parts []item `json:"parts"`
}

type reference struct {
	Number string `json:"number"`
	Part   string `json:"part"`
	Source string `json:"source,omitempty"`
	Kind   string `json:"kind,omitempty"`
}

type guideRef struct {
	Platform string `json:"platform"`
	File     string `json:"file"`
}

// listedPart is a part with the file that tells more of it.
type listedPart struct {
	part
	File string `json:"file"`
}

// PublicCatalogue writes catalogue.json for the world: settings, platforms, traits,
// positions, parts, kits and references, with the files of guides and parts.
func PublicCatalogue(w io.Writer, c *model.Catalogue, at *address.Book) error {
	return writeLists(w, settingsOf(&c.Settings),
		listOf("platforms", c.Platforms, platformOf),
		listOf("traits", c.Traits, catalogueTrait),
		listOf("positions", c.Positions, positionOf),
		listOf("parts", c.Parts, func(p *model.Part) listedPart { return listedPart{partOf(p), at.PartData(p)} }),
		listOf("kits", kits(c), kitOf),
		listOf("references", c.References, referenceOf),
		listOf("guides", c.Platforms, func(p *model.Platform) guideRef { return guideRef{p.Name, at.PlatformData(p)} }),
	)
}

// each gives f of every element; never nil, so that an empty list is written as one.
func each[T, U any](in []T, f func(T) U) []U {
	out := make([]U, len(in))
	for i, v := range in {
		out[i] = f(v)
	}
	return out
}

func settingsOf(s *model.Settings) settings {
	out := settings{s.Title, s.Publisher, s.Release, s.BaseURL, s.Contact, "in", "."}
	if s.Millimetres {
		out.Units = "mm"
	}
	if s.DecimalComma {
		out.Decimal = ","
	}
	return out
}

func platformOf(p *model.Platform) platform {
	return platform{p.Name, yearSpans(p.Years), p.Maker, p.Summary, p.Tell}
}

func catalogueTrait(t *model.Trait) trait {
	return trait{t.Name, t.Kind.String(), t.Question, tell(t.Tell, nil), t.Effort,
		each(t.Values, func(v *model.Value) guideValue { return guideValue{v.Name, tell(v.Tell, nil)} })}
}

// partOf gives what the world may know of a part.
func partOf(p *model.Part) part {
	out := part{Part: p.Number, Name: p.Name, Family: p.Family, Status: p.Status.String(),
		ReplacedBy: publicFits(p.ReplacedBy), Cautions: cautionsOf(p.Cautions), Summary: p.Summary}
	if p.Line != nil {
		out.LineSize = p.Line.Text
	}
	for _, q := range p.Properties {
		if q.Public && !q.Refused {
			out.Properties = append(out.Properties, propertyOf(&q))
		}
	}
	return out
}

func kits(c *model.Catalogue) []*model.Part {
	var out []*model.Part
	for _, p := range c.Parts {
		if p.Kit() {
			out = append(out, p)
		}
	}
	return out
}

func kitOf(p *model.Part) kit {
	return kit{p.Number, each(p.Contents, func(c model.Component) item { return item{c.Part.Number, c.Quantity} })}
}

func referenceOf(r *model.Reference) reference {
	return reference{r.Number, partNumber(r.Part), r.Source, r.Kind}
}
