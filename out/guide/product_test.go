package guide_test

import (
	"encoding/json"
	"math/big"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/decide"
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
		"category": "Dampers", "description": "For chassis with raised bodies.", "url": "https://guides.example/parts/wd-120.html",
		"additionalProperty": []any{
			map[string]any{"@type": "PropertyValue", "name": "Extended length", "value": map[string]any{"@type": "QuantitativeValue", "value": 642.0, "unitCode": "MMT"}},
			map[string]any{"@type": "PropertyValue", "name": "Colour", "value": "grey"},
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

// Quantities are those of a plain number and a unit that has a code; the rest is text.
// Codes: UN/CEFACT Recommendation 20.
func TestQuantities(t *testing.T) {
	for _, c := range []struct {
		text, unit string
		want       any
	}{
		{"642", "mm", []any{642.0, "MMT"}}, {"25.3 in", "", []any{25.3, "INH"}}, {"12.50", "kg", []any{12.5, "KGM"}}, {"-40", "mm", []any{-40.0, "MMT"}},
		{"90", "psi", []any{90.0, "PS"}}, {"6.2 bar", "", []any{6.2, "BAR"}}, {"65 lb·ft", "", []any{65.0, "M92"}}, {"88", "N·m", []any{88.0, "NU"}},
		{"1e5", "mm", "1e5\u00a0mm"}, {"007", "mm", "007\u00a0mm"}, {"NaN", "mm", "NaN\u00a0mm"}, {"1,5", "mm", "1,5\u00a0mm"}, {".5", "in", ".5\u00a0in"},
		{"5.", "in", "5.\u00a0in"}, {"1/2", "in", "1/2\u00a0in"}, {"3", "rows", "3\u00a0rows"}, {"3", "", "3"}, {"about 4 mm", "", "about 4 mm"}, {" mm", "", "mm"},
		{"1234567890123456", "mm", "1234567890123456\u00a0mm"},
	} {
		s := newSample()
		s.Cat.Parts[0].Properties = []model.Property{{Name: "P", Text: c.text, Unit: c.unit}}
		v := product(t, s.pages(t, guide.Options{})["parts/wd-100.html"])["additionalProperty"].([]any)[0].(map[string]any)["value"]
		if q, ok := v.(map[string]any); ok {
			v = []any{q["value"], q["unitCode"]}
		} else {
			v = strings.ReplaceAll(v.(string), " ", "\u00a0")
			c.want = strings.ReplaceAll(c.want.(string), " ", "\u00a0")
		}
		assert.Equal(t, c.want, v, "%q %q", c.text, c.unit)
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
