package guide_test

import (
	"encoding/json"
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/judge/decide"
	"ferrule/compiler/measure"
	"ferrule/compiler/model"
	"ferrule/out/guide"
)

// product reads the JSON-LD of a page; nil where there is none.
func product(t *testing.T, page string) map[string]any {
	t.Helper()
	var found map[string]any
	for _, n := range all(parse(t, page), tag("script")) {
		if attr(n, "type") == "application/ld+json" {
			require.Nil(t, found, "one of them")
			require.NoError(t, json.Unmarshal([]byte(n.FirstChild.Data), &found))
		}
	}
	return found
}

// The names are those of schema.org: Product, mpn, isAccessoryOrSparePartFor, Vehicle,
// vehicleModelDate, PropertyValue, QuantitativeValue, unitCode; MMT is the millimetre in
// UN/CEFACT Recommendation 20.
func TestProduct(t *testing.T) {
	got := product(t, newSample().pages(t, guide.Options{})["parts/wd-120.html"])
	assert.Equal(t, map[string]any{
		"@context": "https://schema.org", "@type": "Product", "name": "WD-120 Front damper, long travel", "mpn": "WD-120",
		"brand":    map[string]any{"@type": "Brand", "name": "Wending Ride Parts"},
		"category": "Dampers", "description": "For chassis with raised bodies.", "url": "https://guides.example/parts/wd-120.html",
		"additionalProperty": []any{
			map[string]any{"@type": "PropertyValue", "name": "Extended length", "value": map[string]any{"@type": "QuantitativeValue", "value": 642.5, "unitCode": "MMT"}},
			map[string]any{"@type": "PropertyValue", "name": "Tightening torque", "value": map[string]any{"@type": "QuantitativeValue", "value": 65.0, "unitCode": "M92"}},
			map[string]any{"@type": "PropertyValue", "name": "Colour", "value": "grey"},
			map[string]any{"@type": "PropertyValue", "name": "Lamp", "value": "24 V"},
			map[string]any{"@type": "PropertyValue", "name": "Stroke", "value": map[string]any{"@type": "QuantitativeValue", "value": 264.5, "unitCode": "MMT"}},
		},
		"isAccessoryOrSparePartFor": []any{map[string]any{"@type": "Vehicle", "name": "Tarn Chassis Heron 7",
			"manufacturer": map[string]any{"@type": "Organization", "name": "Tarn Chassis"}, "vehicleModelDate": []any{"2004", "2005", "2006"}}},
	}, got)
}

func TestProductOfWhatIsNotOffered(t *testing.T) {
	pages := newSample().pages(t, guide.Options{})
	assert.NotContains(t, product(t, pages["parts/wx-666.html"]), "isAccessoryOrSparePartFor", "nothing that is not settled")
	for name, page := range newSample().pages(t, guide.Options{Draft: true}) {
		if isPage(name) {
			assert.Nil(t, product(t, page), "%s: a draft is told to nobody", name)
		}
	}
}

// Measured values whose numbers are decimals are quantities; the rest is text. Codes:
// UN/CEFACT Recommendation 20.
func TestQuantities(t *testing.T) {
	value := func(p model.Property) any {
		s := newSample()
		p.Public = true
		s.Cat.Parts[0].Properties = []model.Property{p}
		return product(t, s.pages(t, guide.Options{})["parts/wd-100.html"])["additionalProperty"].([]any)[0].(map[string]any)["value"]
	}
	for text, want := range map[string]map[string]any{
		"642 mm": {"value": 642.0, "unitCode": "MMT"}, "25.3 in": {"value": 25.3, "unitCode": "INH"}, "12.50 kg": {"value": 12.5, "unitCode": "KGM"},
		"90 psi": {"value": 90.0, "unitCode": "PS"}, "6.2 bar": {"value": 6.2, "unitCode": "BAR"}, "65 lb·ft": {"value": 65.0, "unitCode": "M92"},
		"88 N·m": {"value": 88.0, "unitCode": "NU"}, "1/2 in": {"value": 0.5, "unitCode": "INH"},
		"12.0-12.4 in": {"minValue": 12.0, "maxValue": 12.4, "unitCode": "INH"}, "10 mm ±0.1": {"minValue": 9.9, "maxValue": 10.1, "unitCode": "MMT"},
		"max 120 psi": {"maxValue": 120.0, "unitCode": "PS"}, "8 bar min": {"minValue": 8.0, "unitCode": "BAR"}, "93 °C": {"value": 93.0, "unitCode": "CEL"},
	} {
		q, err := measure.ParseQuantity(text, measure.Options{})
		require.NoError(t, err)
		want["@type"] = "QuantitativeValue"
		assert.Equal(t, want, value(model.Property{Name: "P", Text: text, Quantity: q}), text)
	}
	third := measure.New(big.NewRat(1, 3), big.NewRat(1, 3), measure.Inch)
	assert.Contains(t, value(model.Property{Name: "P", Text: "0.33333", Quantity: third}), "0.333", "no decimal says it")
	assert.Equal(t, "see drawing", value(model.Property{Name: "P", Text: "see drawing", Unit: "mm"}))
	assert.Equal(t, "24 in approx", value(model.Property{Name: "P", Text: "24 in approx", Unit: "mm"}))
	assert.Equal(t, "1500 rpm", value(model.Property{Name: "P", Text: "1500", Unit: "rpm"}))
	assert.Equal(t, "3", value(model.Property{Name: "P", Text: "3"}), "nobody says of what")
}

// A text that could not be read stands on the page as it was written, and what was refused
// nowhere.
func TestUnreadAndRefused(t *testing.T) {
	s := newSample()
	s.Cat.Parts[0].Properties = []model.Property{
		{Name: "Length", Unit: "mm", Text: "24 in approx", Public: true},
		{Name: "Torque", Text: "65 lb·ft (80 N·m)", Refused: true, Public: true},
	}
	page := s.pages(t, guide.Options{})["parts/wd-100.html"]
	assert.Contains(t, page, "24 in approx")
	for _, no := range []string{"approx mm", "approx\u00a0mm", "65 lb", "80 N", "Torque"} {
		assert.NotContains(t, page, no)
	}
}

// A line size is an exact decimal: 3/8 in is 0.375 in, 5/64 in is 0.078125 in.
func TestLineSizeOfProduct(t *testing.T) {
	s := newSample()
	s.Cat.Parts[3].Line.Num = big.NewRat(5, 64)
	value := func() any {
		return product(t, s.pages(t, guide.Options{})["parts/wr-38.html"])["additionalProperty"].([]any)[0].(map[string]any)["value"]
	}
	assert.Equal(t, map[string]any{"@type": "QuantitativeValue", "value": 0.078125, "unitCode": "INH"}, value())
	s.Cat.Parts[3].Line = &measure.Size{Unit: measure.Inch, Num: big.NewRat(1, 3), Text: "1/3 in"}
	assert.Equal(t, "1/3 in", value(), "no decimal says it")
}

// A part on very many platforms names some of them to search engines, and all to people.
func TestPartOfManyPlatforms(t *testing.T) {
	s := large(200, 15, 1)
	page := s.pages(t, guide.Options{})["parts/lx-00000.html"]
	assert.Len(t, product(t, page)["isAccessoryOrSparePartFor"], 100)
	text := words(parse(t, page))
	for _, p := range s.Cat.Platforms {
		assert.Contains(t, text, p.Name)
	}
	assert.Contains(t, text, "Further platforms The guide of each says on which of its vehicles. Platform 5: Position 0, Position 1,")
	assert.Less(t, len(page), 350_000)
}

// What is offered alike on several boxes of vehicles is one row.
func TestBoxesOfOneOffer(t *testing.T) {
	s := newSample()
	damper := s.Guides[0].Answers[0]
	second := damper.Cases[0]
	second.Where = model.Box{Years: []model.Span{{From: 2010, To: 2011}}}
	damper.Cases = []decide.Case{damper.Cases[0], second}
	got := rows(section(t, parse(t, s.pages(t, guide.Options{})["parts/wd-110.html"]), "fits"))
	require.Len(t, got, 2)
	assert.Equal(t, []string{"Front damper", "2004 to 2006 Front suspension: Air beam or Twin arm 2010 to 2011", "2", "another choice"}, got[1])
}
