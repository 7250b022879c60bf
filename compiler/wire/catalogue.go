package wire

import "ferrule/compiler/model"

// Settings is what the Settings sheet says, apart from lists of columns.
type Settings struct {
	Title     string `json:"title,omitempty"`
	Publisher string `json:"publisher,omitempty"`
	Release   string `json:"release,omitempty"`
	BaseURL   string `json:"base_url,omitempty"`
	Contact   string `json:"contact,omitempty"`
	Units     string `json:"units"`   // in or mm, whichever guides print first
	Decimal   string `json:"decimal"` // . or ,
}

// Platform is a platform as declared.
type Platform struct {
	Platform  string   `json:"platform"`
	Years     [][2]int `json:"years"`
	Maker     string   `json:"maker,omitempty"`
	Summary   string   `json:"summary,omitempty"`
	HowToTell string   `json:"how_to_tell,omitempty"`
}

// Reference is another number of a part.
type Reference struct {
	Number string `json:"number"`
	Part   string `json:"part"`
	Source string `json:"source,omitempty"`
	Kind   string `json:"kind,omitempty"`
}

// GuideFile says where the guide of a platform is.
type GuideFile struct {
	Platform string `json:"platform"`
	File     string `json:"file"` // a slash path, relative to the folder of the catalogue
}

// SettingsOf puts settings as JSON.
func SettingsOf(s *model.Settings) Settings {
	out := Settings{s.Title, s.Publisher, s.Release, s.BaseURL, s.Contact, "in", "."}
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
	return Platform{p.Name, YearSpans(p.Years), p.Maker, p.Summary, p.Tell}
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
