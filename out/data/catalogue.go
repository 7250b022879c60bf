package data

import (
	"io"

	"ferrule/compiler/model"
)

// catalogueFile is the public catalogue.
type catalogueFile struct {
	settings
	Platforms  []platform     `json:"platforms"`
	Traits     []trait        `json:"traits"`
	Positions  []positionHead `json:"positions"`
	Parts      []part         `json:"parts"`
	Kits       []kit          `json:"kits"`
	References []reference    `json:"references"`
	Guides     []guideRef     `json:"guides"`
}

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

// PublicCatalogue writes catalogue.json for the world.
func PublicCatalogue(w io.Writer, c *model.Catalogue) error {
	return write(w, catalogueFile{
		settings:   settingsOf(&c.Settings),
		Platforms:  each(c.Platforms, platformOf),
		Traits:     each(c.Traits, catalogueTrait),
		Positions:  each(c.Positions, positionOf),
		Parts:      each(c.Parts, partOf),
		Kits:       each(kits(c), kitOf),
		References: each(c.References, referenceOf),
		Guides:     guideRefs(c),
	})
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
	return trait{t.Name, kindName(t.Kind), t.Question, tell(t.Tell, nil), t.Effort,
		each(t.Values, func(v *model.Value) guideValue { return guideValue{v.Name, tell(v.Tell, nil)} })}
}

func partOf(p *model.Part) part {
	out := part{Part: p.Number, Name: p.Name, Family: p.Family, Status: p.Status.String(),
		ReplacedBy: publicFits(p.ReplacedBy), Cautions: cautionsOf(p.Cautions), Summary: p.Summary}
	if p.Line != nil {
		out.LineSize = p.Line.Text
	}
	for _, q := range p.Properties {
		out.Properties = append(out.Properties, propertyOf(&q))
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

func guideRefs(c *model.Catalogue) []guideRef {
	out := make([]guideRef, len(c.Platforms))
	for i, f := range GuideFiles(c) {
		out[i] = guideRef{c.Platforms[i].Name, f}
	}
	return out
}
