package figures_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"ferrule/compiler/judge/figures"
)

func TestDiffer(t *testing.T) {
	numbers := map[string]bool{"HD-20": true, "HD-21": true}
	for _, tt := range []struct {
		text, translation string
		lost, more        []string
	}{
		{"Tighten to 80 Nm.", "Serrez à 80 Nm.", nil, nil},
		{"Tighten to 80 Nm.", "Serrez à 60 Nm.", []string{"80 Nm"}, []string{"60 Nm"}},
		{"Tighten to 80 Nm.", "Serrez.", []string{"80 Nm"}, nil},
		{"Tighten.", "Serrez à 80.", nil, []string{"80"}},
		{"80 Nm", "80 lb·ft", []string{"80 Nm"}, []string{"80 lb·ft"}},
		{"80 Nm", "80 N·m", nil, nil},
		{"1.5 bar", "1,5 bar", nil, nil},
		{"1.5 bar", "15 bar", []string{"1.5 bar"}, []string{"15 bar"}},
		{"1.50 bar", "1,5 bar", nil, nil},
		{"10,000 km", "10 000 km", nil, nil},
		{"10,000 km", "10\u00a0000 km", nil, nil},
		{"10,000 km", "10.000 km", nil, nil},
		{"10,000 km", "1 000 km", []string{"10,000 km"}, []string{"1000 km"}},
		{"1,234,567", "1.234.567", nil, nil},
		{"3/8 in", "3/8 in", nil, nil},
		{"3/8 in", "5/8 in", []string{"3/8 in"}, []string{"5/8 in"}},
		{"5-10 mm", "10-5 mm", nil, nil},
		{"HD-20 only", "HD-20 seulement", nil, nil},
		{"HD-20 only", "HD-21 seulement", []string{"HD-20"}, []string{"HD-21"}},
		{"HD-20 only", "HD 20 seulement", []string{"HD-20"}, []string{"20"}},
		{"type R134a", "type R134a", nil, nil},
		{"2 in each line", "2 dans chaque conduite", nil, nil},
		{"twice 5, then 5", "5 et 5", nil, nil},
		{"twice 5, then 5", "5", []string{"5"}, nil},
		{"80 Nm, not more", "80, pas plus", []string{"80 Nm"}, []string{"80 without a unit"}},
		{"80 Nm", "80", []string{"80 Nm"}, []string{"80 without a unit"}},
		{"10 mm, 12 mm", "10, 12 mm", nil, nil},
		{"80 Nm", "80 newtons-mètres", nil, nil},
		{"500 km", "500 milles", []string{"500 km"}, []string{"500 milles"}},
		{"3/8 in", "3/8 pouces", nil, nil},
		{"Not below -20 °C.", "Pas sous 20 °C.", []string{"-20 °C"}, []string{"20 °C"}},
		{"Not below -20 °C.", "Pas sous −20 °C.", nil, nil},
		{"Not below -20 °C.", "Pas sous moins 20 °C.", nil, nil},
		{"-20 °C", "(-20 °C)", nil, nil},
		{"5 -10 mm", "5 à 10 mm", nil, nil},
		{"In 2009.", "En 2009", nil, nil},
		{"", "", nil, nil},
	} {
		lost, more := figures.Differ(tt.text, tt.translation, numbers)
		assert.Equal(t, tt.lost, lost, "%s | %s", tt.text, tt.translation)
		assert.Equal(t, tt.more, more, "%s | %s", tt.text, tt.translation)
	}
}

// Whatever is compared, nothing panics, and a text has what itself has.
func FuzzDiffer(f *testing.F) {
	for _, text := range []string{"1.5 bar, 3/8 in", "10 000", "HD-20", "1,,2.", "５ mm", "-5-6-"} {
		f.Add(text, text)
	}
	f.Fuzz(func(t *testing.T, text, other string) {
		lost, more := figures.Differ(text, text, nil)
		assert.Empty(t, lost)
		assert.Empty(t, more)
		figures.Differ(text, other, map[string]bool{other: true})
	})
}
