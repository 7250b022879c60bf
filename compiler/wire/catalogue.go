package wire

import "ferrule/compiler/model"

// Settings is what the Settings sheet says, apart from lists of columns.
type Settings struct {
	Title     string `json:"title,omitempty"`     // of the catalogue
	Publisher string `json:"publisher,omitempty"` // who publishes it
	Release   string `json:"release,omitempty"`   // how this release is called
	BaseURL   string `json:"base_url,omitempty"`  // where the guides stand on the web
	Contact   string `json:"contact,omitempty"`   // whom to ask
	Units     string `json:"units"`               // in or mm, whichever guides print first
	Decimal   string `json:"decimal"`             // . or ,
	// Languages: that of the workbooks, left out where they name none, and those of the folders beside it.
	Language  string   `json:"language,omitempty"`
	Languages []string `json:"languages,omitempty"`
}

// Platform is a platform as declared.
type Platform struct {
	Platform  string   `json:"platform"`              // its name
	Years     [][2]int `json:"years"`                 // closed ranges of model years
	Maker     string   `json:"maker,omitempty"`       // who made the chassis
	Summary   string   `json:"summary,omitempty"`     // a sentence about it
	HowToTell string   `json:"how_to_tell,omitempty"` // how to see that a vehicle is one
	Called    []string `json:"also_called,omitempty"` // what people call it besides
}

// Reference is another number of a part.
type Reference struct {
	Number string `json:"number"`           // the other number
	Part   string `json:"part"`             // the part that it stands for
	Source string `json:"source,omitempty"` // whose number it is
	Kind   string `json:"kind,omitempty"`   // what the number means, as the sheet says it
}

// GuideFile says where the guide of a platform is.
type GuideFile struct {
	Platform string `json:"platform"` // its name
	File     string `json:"file"`     // a slash path, relative to the folder of the catalogue
}

// SettingsOf puts settings as JSON.
func SettingsOf(s *model.Settings) Settings {
	out := Settings{s.Title, s.Publisher, s.Release, s.BaseURL, s.Contact, "in", ".", s.Language, s.Languages}
	if s.Millimetres {
		out.Units = "mm"
	}
	if s.DecimalComma {
		out.Decimal = ","
	}
	return out
}

// PlatformOf puts a platform as JSON.
func PlatformOf(p *model.Platform) Platform {
	return Platform{p.Name, YearSpans(p.Years), p.Maker, p.Summary, p.Tell, model.Names(p.Called, nil)}
}

// Kits lists the parts that hold others, as declared.
func Kits(c *model.Catalogue) []*model.Part {
	var out []*model.Part
	for _, p := range c.Parts {
		if p.Kit() {
			out = append(out, p)
		}
	}
	return out
}

// ReferenceOf puts a reference as JSON.
func ReferenceOf(r *model.Reference) Reference {
	return Reference{r.Number, PartNumber(r.Part), r.Source, r.Kind}
}

// Guides is the list `guides`: the file of each platform's guide, in the order of the
// catalogue.
func Guides(c *model.Catalogue, file func(*model.Platform) string) List {
	return ListOf("guides", c.Platforms, func(p *model.Platform) GuideFile { return GuideFile{p.Name, file(p)} })
}
