package staff

import (
	"io"

	"ferrule/compiler/model"
	"ferrule/compiler/wire"
)

// Catalogue writes catalogue.json: all that the workbooks state, row by row. guide gives the
// file of a platform's guide, a slash path in the staff's folder.
func Catalogue(w io.Writer, c *model.Catalogue, guide func(*model.Platform) string) error {
	return wire.WriteLists(w, wire.SettingsOf(&c.Settings),
		wire.ListOf("platforms", c.Platforms, platformOf),
		wire.ListOf("year_how_to_tell", told(c.YearTell), func(t toldText) toldText { return t }).OrNone(),
		wire.ListOf("year_also_called", calledOf(c.YearCalled), func(c calledName) calledName { return c }).OrNone(),
		wire.ListOf("traits", c.Traits, traitOf),
		wire.ListOf("vehicles", c.Vehicles, vehiclesRowOf),
		wire.ListOf("breaks", c.Breaks, breakOf).OrNone(),
		wire.ListOf("positions", c.Positions, declaredPositionOf),
		wire.ListOf("parts", c.Parts, partOf),
		wire.ListOf("kits", wire.Kits(c), kitOf),
		wire.ListOf("references", c.References, referenceOf),
		wire.ListOf("sizes", c.SizeRows, sizeRowOf),
		wire.ListOf("fitments", c.Fitments, fitmentOf),
		wire.ListOf("compatibility", c.Rules, compatibilityOf),
		wire.ListOf("facts", c.FactRows, factRowOf),
		wire.ListOf("limits", c.Limits, limitOf),
		wire.ListOf("calculated", calculatedRows(c), calculatedOf),
		wire.ListOf("cautions", c.Cautions, keyedCautionOf),
		wire.ListOf("complaints", c.Complaints, complaintOf).OrNone(),
		wire.ListOf("inspections", c.Inspections, inspectionOf).OrNone(),
		wire.ListOf("translations", c.Translations, translationOf).OrNone(),
		wire.ListOf("accepted", c.Acceptances, acceptanceOf),
		wire.Guides(c, guide),
	)
}

type platform struct {
	wire.Platform
	Picture string      `json:"picture,omitempty"`
	Cell    *wire.Place `json:"cell,omitempty"`
}

func platformOf(p *model.Platform) platform {
	return platform{wire.PlatformOf(p), p.Picture.Name, wire.PlaceOf(p.At)}
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
	return wire.Each(tells, func(t model.Tell) toldText {
		out := toldText{"", t.Text, t.Picture.Name, t.Effort}
		if t.Platform != nil {
			out.Platform = t.Platform.Name
		}
		return out
	})
}

type trait struct {
	Trait     string       `json:"trait"`
	Kind      string       `json:"kind"`
	Question  string       `json:"question,omitempty"`
	HowToTell []toldText   `json:"how_to_tell,omitempty"`
	Effort    int          `json:"effort"`
	Picture   string       `json:"picture,omitempty"`
	Values    []traitValue `json:"values"`
	Extents   []extent     `json:"extents,omitempty"` // of serial numbers and dates, in place of values
	Called    []calledName `json:"also_called,omitempty"`
	Cell      *wire.Place  `json:"cell,omitempty"`
}

type traitValue struct {
	Value     string       `json:"value"`
	HowToTell []toldText   `json:"how_to_tell,omitempty"`
	Called    []calledName `json:"also_called,omitempty"`
	Picture   string       `json:"picture,omitempty"`
	Cell      *wire.Place  `json:"cell,omitempty"`
}

type extent struct {
	wire.Extent
	Cell *wire.Place `json:"cell,omitempty"`
}

func extentsOf(t *model.Trait) []extent {
	return wire.Each(t.Extents, func(e model.Extent) extent { return extent{wire.ExtentOf(t, e), wire.PlaceOf(e.At)} })
}

func traitOf(t *model.Trait) trait {
	return trait{t.Name, t.Kind.String(), t.Question, told(t.Tell), t.Effort, t.Picture.Name,
		wire.Each(t.Values, func(v *model.Value) traitValue {
			return traitValue{v.Name, told(v.Tell), calledOf(v.Called), v.Picture.Name, wire.PlaceOf(v.At)}
		}), extentsOf(t), calledOf(t.Called), wire.PlaceOf(t.At)}
}

// calledName is what something is also called, on one platform or, where that is left out, on all.
type calledName struct {
	Platform string `json:"platform,omitempty"`
	Name     string `json:"name"`
}

func calledOf(called []model.Called) []calledName {
	return wire.Each(called, func(c model.Called) calledName {
		out := calledName{Name: c.Name}
		if c.Platform != nil {
			out.Platform = c.Platform.Name
		}
		return out
	})
}

type kit struct {
	Kit   string          `json:"kit"`
	Parts []componentLine `json:"parts"`
}

type componentLine struct {
	wire.Item
	Cell *wire.Place `json:"cell,omitempty"`
}

func kitOf(p *model.Part) kit {
	return kit{p.Number, wire.Each(p.Contents, func(c model.Component) componentLine {
		return componentLine{wire.Item{Part: c.Part.Number, Quantity: c.Quantity}, wire.PlaceOf(c.At)}
	})}
}

type reference struct {
	wire.Reference
	Note string      `json:"note,omitempty"`
	Cell *wire.Place `json:"cell,omitempty"`
}

func referenceOf(r *model.Reference) reference {
	return reference{wire.ReferenceOf(r), r.Note, wire.PlaceOf(r.At)}
}

// sizeRow is a row of a Sizes sheet, its lengths in the units in which they are written.
type sizeRow struct {
	System    string      `json:"system"`
	Nominal   string      `json:"nominal"`
	Outside   string      `json:"outside_diameter,omitempty"`
	Tolerance string      `json:"tolerance,omitempty"`
	Wall      string      `json:"wall,omitempty"`
	Source    string      `json:"source,omitempty"`
	Cell      *wire.Place `json:"cell,omitempty"`
}

func sizeRowOf(s *model.SizeRow) sizeRow {
	return sizeRow{s.System, s.Size.Name(), s.Outside, s.Within, s.Wall, s.Source, wire.PlaceOf(s.At)}
}

type keyedCaution struct {
	Key string `json:"caution"`
	wire.Caution
	Cell *wire.Place `json:"cell,omitempty"`
}

func keyedCautionOf(c *model.Caution) keyedCaution {
	return keyedCaution{c.Key, wire.Caution{Level: wire.Level(c), Text: c.Text}, wire.PlaceOf(c.At)}
}

// translation is a text with what it reads in other languages.
type translation struct {
	Text     string      `json:"text"`
	Wordings []wording   `json:"wordings"`
	Cell     *wire.Place `json:"cell,omitempty"`
}

type wording struct {
	Language string      `json:"language"`
	Text     string      `json:"text"`
	Cell     *wire.Place `json:"cell,omitempty"`
}

func translationOf(t *model.Translation) translation {
	return translation{t.Text, wire.Each(t.Wordings, func(w model.Wording) wording {
		return wording{w.Language, w.Text, wire.PlaceOf(w.At)}
	}), wire.PlaceOf(t.At)}
}
