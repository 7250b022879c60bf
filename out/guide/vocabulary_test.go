package guide_test

import (
	"encoding/json"
	"math/big"
	"net/url"
	"os"
	"regexp"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/measure"
	"ferrule/compiler/model"
	"ferrule/out/guide"
)

// vocabulary is what schema.org publishes of the types and properties that pages use; its file
// says which release, and on what terms.
type vocabulary struct {
	Source, Version, Licence string
	Types                    map[string]struct {
		Parents []string
		Data    bool // its values are texts or numbers
	}
	Properties map[string]struct{ On, Holds []string }
}

func readVocabulary(t *testing.T) *vocabulary {
	t.Helper()
	text, err := os.ReadFile("testdata/schemaorg/vocabulary.json")
	require.NoError(t, err)
	v := new(vocabulary)
	require.NoError(t, json.Unmarshal(text, v))
	require.NotEmpty(t, v.Source)
	require.NotEmpty(t, v.Licence)
	return v
}

// is tells whether a type is another one, or below it.
func (v *vocabulary) is(name, of string) bool {
	return name == of || slices.ContainsFunc(v.Types[name].Parents, func(p string) bool { return v.is(p, of) })
}

// faults lists what the vocabulary does not know: types, and properties on a type or with a value for
// which they are not.
func (v *vocabulary) faults(node map[string]any, used map[string]bool) []string {
	kind, _ := node["@type"].(string)
	if _, known := v.Types[kind]; !known {
		return []string{"no type " + kind}
	}
	used[kind] = true
	var out []string
	for name, value := range node {
		if name == "@type" || name == "@context" {
			continue
		}
		p, known := v.Properties[name]
		if !known || !slices.ContainsFunc(p.On, func(on string) bool { return v.is(kind, on) }) {
			out = append(out, kind+" has no "+name)
			continue
		}
		used[name] = true
		list, ok := value.([]any)
		if !ok {
			list = []any{value}
		}
		for _, one := range list {
			if below, ok := one.(map[string]any); ok {
				out = append(out, v.faults(below, used)...)
			}
			if !slices.ContainsFunc(p.Holds, func(holds string) bool { return v.holds(holds, one) }) {
				out = append(out, name+" holds no such value")
			}
		}
	}
	return out
}

// holds tells whether a value is of a type.
func (v *vocabulary) holds(of string, value any) bool {
	switch value := value.(type) {
	case map[string]any:
		kind, _ := value["@type"].(string)
		return v.is(kind, of)
	case float64:
		return of == "Number"
	case string:
		u, err := url.Parse(value)
		return of == "Text" || of == "URL" && err == nil && u.IsAbs() || of == "Date" && regexp.MustCompile(`^\d{4}(-\d\d(-\d\d)?)?$`).MatchString(value)
	}
	return false
}

// What search engines read of every part is in the words of schema.org, with picture and brand where
// there are such; all that the file lists of them is used.
func TestProductsAreInTheVocabulary(t *testing.T) {
	v := readVocabulary(t)
	used := map[string]bool{}
	products, brands, images := 0, 0, 0
	ranged := newSample()
	ranged.Cat.Parts[2].Properties = append(ranged.Cat.Parts[2].Properties, model.Property{Name: "Travel", Text: "1 to 2 mm", Public: true,
		Quantity: measure.New(big.NewRat(1, 1), big.NewRat(2, 1), measure.Millimetre)})
	for _, s := range []*sample{ranged, demoSample(t), illustrated(t)} {
		s.Cat.Settings.BaseURL, s.Cat.Settings.Publisher = "https://guides.example", "Wending Ride Parts"
		for name, page := range s.pages(t, guide.Options{}) {
			if !isPage(name) {
				continue
			}
			p := product(t, page)
			if p == nil {
				continue
			}
			products++
			assert.Empty(t, v.faults(p, used), name)
			if assert.Equal(t, map[string]any{"@type": "Brand", "name": "Wending Ride Parts"}, p["brand"], name) {
				brands++
			}
			if p["image"] != nil {
				images++
				assert.Regexp(t, `^https://guides\.example/pictures/[0-9a-z-]+\.(png|jpg|webp|svg)$`, p["image"])
			}
		}
	}
	assert.Greater(t, products, 50)
	assert.Equal(t, products, brands)
	assert.Positive(t, images)
	for name := range v.Properties {
		assert.True(t, used[name], "no page says %s", name)
	}
	wrong := map[string]any{"@type": "Vehicle", "mpn": "1", "brand": "x", "unitCode": "MMT", "vehicleModelDate": "soon"}
	assert.ElementsMatch(t, []string{"brand holds no such value", "Vehicle has no unitCode", "vehicleModelDate holds no such value"}, v.faults(wrong, used), "Vehicle is a Product")
}
