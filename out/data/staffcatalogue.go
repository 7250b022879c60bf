package data

import (
	"io"

	"ferrule/compiler/model"
)

// staffCatalogueFile is all that the workbooks state, row by row.
type staffCatalogueFile struct {
	settings
	Platforms     []staffPlatform    `json:"platforms"`
	YearHowToTell []toldText         `json:"year_how_to_tell,omitempty"`
	Traits        []staffTrait       `json:"traits"`
	Vehicles      []vehiclesRow      `json:"vehicles"`
	Positions     []declaredPosition `json:"positions"`
	Parts         []staffPart        `json:"parts"`
	Kits          []staffKit         `json:"kits"`
	References    []staffReference   `json:"references"`
	Fitments      []fitment          `json:"fitments"`
	Compatibility []compatibility    `json:"compatibility"`
	Cautions      []keyedCaution     `json:"cautions"`
	Accepted      []acceptance       `json:"accepted"`
	Guides        []guideRef         `json:"guides"`
}

// StaffCatalogue writes catalogue.json for the staff.
func StaffCatalogue(w io.Writer, c *model.Catalogue) error {
	return write(w, staffCatalogueFile{
		settings:      settingsOf(&c.Settings),
		Platforms:     each(c.Platforms, staffPlatformOf),
		YearHowToTell: told(c.YearTell),
		Traits:        each(c.Traits, staffTraitOf),
		Vehicles:      each(c.Vehicles, vehiclesRowOf),
		Positions:     each(c.Positions, declaredPositionOf),
		Parts:         each(c.Parts, staffPartOf),
		Kits:          each(kits(c), staffKitOf),
		References:    each(c.References, staffReferenceOf),
		Fitments:      each(c.Fitments, fitmentOf),
		Compatibility: each(c.Rules, compatibilityOf),
		Cautions:      each(c.Cautions, keyedCautionOf),
		Accepted:      each(c.Acceptances, acceptanceOf),
		Guides:        guideRefs(c),
	})
}

type staffPlatform struct {
	platform
	Picture string `json:"picture,omitempty"`
	Cell    *place `json:"cell,omitempty"`
}

func staffPlatformOf(p *model.Platform) staffPlatform {
	return staffPlatform{platformOf(p), p.Picture, placeOf(p.At)}
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
		out := toldText{"", t.Text, t.Picture, t.Effort}
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
	return staffTrait{t.Name, kindName(t.Kind), t.Question, told(t.Tell), t.Effort, t.Picture,
		each(t.Values, func(v *model.Value) staffValue {
			return staffValue{v.Name, told(v.Tell), v.Picture, placeOf(v.At)}
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

type keyedCaution struct {
	Caution string `json:"caution"`
	caution
	Cell *place `json:"cell,omitempty"`
}

func keyedCautionOf(c *model.Caution) keyedCaution {
	return keyedCaution{c.Key, caution{level(c), c.Text}, placeOf(c.At)}
}
