package guide_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"ferrule/out/guide"
)

// Where a trait does not apply to the vehicles with one value of another and to no others, pages say
// what those have.
func TestWhatThereIsInstead(t *testing.T) {
	pages := demoSample(t).pages(t, guide.Options{})
	place := byID(t, parse(t, pages["platforms/h7.html"]), "at-front-damper")
	assert.Contains(t, rows(place), []string{"2013 to 2019", "Air independent (no Beam arm)", "any", rows(place)[6][3]})
	assert.Contains(t, words(byID(t, parse(t, pages["platforms/h7.html"]), "trait-beam-arm")), "Air independent (no Beam arm)")
	for _, id := range []string{"complaints", "inspections"} {
		assert.NotContains(t, words(byID(t, parse(t, pages["platforms/h7.html"]), id)), "does not apply", id)
	}
	assert.Contains(t, pages["platforms/h7.html"], `data-absent="none, as Levelling is Mechanical"`, "what the finder says of what follows")
	part := words(parse(t, pages["parts/hpr-1102.html"]))
	assert.Contains(t, part, "Levelling Mechanical; no Levels while driving;", "what stands beside it is not said twice")
	assert.NotContains(t, part, "does not apply")
	assert.Contains(t, words(byID(t, parse(t, newSample().pages(t, guide.Options{})["platforms/heron-7.html"]), "at-restrictor-left")), "does not apply",
		"no trait tells what there is instead")
}
