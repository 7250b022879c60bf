package data

import (
	"io"

	"ferrule/compiler/model"
	"ferrule/out/address"
)

// StaffCatalogue writes catalogue.json for the staff: all that the workbooks state, row by
// row.
func StaffCatalogue(w io.Writer, c *model.Catalogue, at *address.Book) error {
	return writeLists(w, settingsOf(&c.Settings),
		listOf("platforms", c.Platforms, staffPlatformOf),
		listOf("year_how_to_tell", told(c.YearTell), func(t toldText) toldText { return t }).orNone(),
		listOf("traits", c.Traits, staffTraitOf),
		listOf("vehicles", c.Vehicles, vehiclesRowOf),
		listOf("positions", c.Positions, declaredPositionOf),
		listOf("parts", c.Parts, staffPartOf),
		listOf("kits", kits(c), staffKitOf),
		listOf("references", c.References, staffReferenceOf),
		listOf("sizes", c.SizeRows, staffSizeOf),
		listOf("fitments", c.Fitments, fitmentOf),
		listOf("compatibility", c.Rules, compatibilityOf),
		listOf("facts", c.FactRows, factRowOf),
		listOf("limits", c.Limits, limitOf),
		listOf("calculated", calculatedRows(c), calculatedOf),
		listOf("cautions", c.Cautions, keyedCautionOf),
		listOf("accepted", c.Acceptances, acceptanceOf),
		listOf("guides", c.Platforms, func(p *model.Platform) guideRef { return guideRef{p.Name, at.PlatformData(p)} }),
	)
}

type staffPlatform struct {
	platform
	Picture string `json:"picture,omitempty"`
	Cell    *place `json:"cell,omitempty"`
}

func staffPlatformOf(p *model.Platform) staffPlatform {
	return staffPlatform{platformOf(p), p.Picture.Name, placeOf(p.At)}
}

// toldText is a text that says how to tell, for one platform or, where that is left
// out, for all.
type toldText struct {
	Platform string `json:"platform,omitempty"`
	Text     string `json:"text,omitempty"`
	Picture  string `json:"picture,omitempty"`
	Effort   int    `json:"effort,omitempty"`
}

func told(tells []model.Tell) []toldText {
	return each(tells, func(t model.Tell) toldText {
		out := toldText{"", t.Text, t.Picture.Name, t.Effort}
		if t.Platform != nil {
			out.Platform = t.Platform.Name
		}
		return out
	})
}

type staffTrait struct {
	Trait     string       `json:"trait"`
	Kind      string       `json:"kind"`
	Question  string       `json:"question,omitempty"`
	HowToTell []toldText   `json:"how_to_tell,omitempty"`
	Effort    int          `json:"effort"`
	Picture   string       `json:"picture,omitempty"`
	Values    []staffValue `json:"values"`
	Cell      *place       `json:"cell,omitempty"`
}

type staffValue struct {
	Value     string     `json:"value"`
	HowToTell []toldText `json:"how_to_tell,omitempty"`
	Picture   string     `json:"picture,omitempty"`
	Cell      *place     `json:"cell,omitempty"`
}

func staffTraitOf(t *model.Trait) staffTrait {
	return staffTrait{t.Name, t.Kind.String(), t.Question, told(t.Tell), t.Effort, t.Picture.Name,
		each(t.Values, func(v *model.Value) staffValue {
			return staffValue{v.Name, told(v.Tell), v.Picture.Name, placeOf(v.At)}
		}), placeOf(t.At)}
}

type staffKit struct {
	Kit   string          `json:"kit"`
	Parts []componentLine `json:"parts"`
}

type componentLine struct {
	item
	Cell *place `json:"cell,omitempty"`
}

func staffKitOf(p *model.Part) staffKit {
	return staffKit{p.Number, each(p.Contents, func(c model.Component) componentLine {
		return componentLine{item{c.Part.Number, c.Quantity}, placeOf(c.At)}
	})}
}

type staffReference struct {
	reference
	Note string `json:"note,omitempty"`
	Cell *place `json:"cell,omitempty"`
}

func staffReferenceOf(r *model.Reference) staffReference {
	return staffReference{referenceOf(r), r.Note, placeOf(r.At)}
}

// staffSize is a row of a Sizes sheet, its lengths in the units in which they are written.
type staffSize struct {
	System    string `json:"system"`
	Nominal   string `json:"nominal"`
	Outside   string `json:"outside_diameter,omitempty"`
	Tolerance string `json:"tolerance,omitempty"`
	Wall      string `json:"wall,omitempty"`
	Source    string `json:"source,omitempty"`
	Cell      *place `json:"cell,omitempty"`
}

func staffSizeOf(s *model.SizeRow) staffSize {
	return staffSize{s.System, s.Size.Name(), s.Outside, s.Within, s.Wall, s.Source, placeOf(s.At)}
}

type keyedCaution struct {
	Caution string `json:"caution"`
	caution
	Cell *place `json:"cell,omitempty"`
}

func keyedCautionOf(c *model.Caution) keyedCaution {
	return keyedCaution{c.Key, caution{level(c), c.Text}, placeOf(c.At)}
}
