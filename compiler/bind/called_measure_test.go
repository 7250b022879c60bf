package bind

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"ferrule/compiler/bind/lexicon"
	"ferrule/compiler/finding"
	"ferrule/compiler/model"
)

// A name that measures the same is a name, however it is rounded; one that measures something else leads to the wrong part.
func TestOtherNamesMeasureTheSame(t *testing.T) {
	b := &binder{cat: &model.Catalogue{}}
	b.lexicon = lexicon.Of(b.cat)
	for _, c := range []struct {
		own, other string
		told       bool
	}{
		{"7.1 t", "7,5 t", true}, {"7.1 t", "7.2 t", true}, {"7.1 t", "7.1 kg", true}, {"3/8 in", "8 mm", true}, {"1/4 in", "5 mm", true}, {"1/4 in", "6 mm", false},
		{"7.1 t", "7100 kg", false}, {"7.1 t", "7,1 t", false}, {"3/8 in", "9.5 mm", false}, {"1/4 in", "6.35 mm", false},
		{"7.1 t", "heavy axle", false}, {"7.1 t", "71", false}, {"Air beam", "7.1 t", false},
	} {
		var got []*finding.Finding
		b.Report = func(f *finding.Finding) { got = append(got, f) }
		b.otherMeasure(&model.Trait{}, &model.Value{Name: c.own, Called: []model.Called{{Name: c.other}}})
		assert.Equal(t, c.told, len(got) == 1, "%s also called %s", c.own, c.other)
	}
}
