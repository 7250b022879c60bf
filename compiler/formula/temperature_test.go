package formula

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/measure"
)

// Temperatures are compared and never worked with: what twice 20 °C is depends on where the
// scale begins.
func TestTemperaturesAreOnlyCompared(t *testing.T) {
	names := NewNames()
	names.Add(Name{Text: "Most heat", What: "a property of parts", ID: 0, Dim: measure.DegreeCelsius.Dimension(), Unit: measure.DegreeCelsius})
	for _, text := range []string{"Most heat + 5 °C", "Most heat - 5 °C", "Most heat * 2", "2 * Most heat", "Most heat / 2", "10 mm / Most heat", "20 °C + 20 °C", "(Most heat) * 1"} {
		_, err := Parse(text, names, measure.Options{})
		require.Error(t, err, text)
		assert.Contains(t, err.Error(), "temperatures can only be compared", text)
	}
	_, err := Parse("Most heat + 5 mm", names, measure.Options{})
	assert.ErrorContains(t, err, "only like can be added")
	left, err := Parse("Most heat", names, measure.Options{})
	require.NoError(t, err)
	right, err := Parse("200 °F", names, measure.Options{})
	require.NoError(t, err)
	rule, err := NewRule(left, AtLeast, right)
	require.NoError(t, err)
	for text, want := range map[string]string{"94 °C": "", "93 °C": "short by 0.33 °C (0.6 °F)", "80 to 120 °C": "short by 13.33 °C (24 °F)"} {
		q, err := measure.ParseQuantity(text, measure.Options{})
		require.NoError(t, err)
		v, err := rule.Judge([]Value{ValueOf(q)})
		require.NoError(t, err)
		assert.Equal(t, want == "", v.Holds, text)
		if !v.Holds {
			assert.Equal(t, want, rule.Short(v, measure.MetricSystem), text)
			assert.False(t, rule.Certain([]Value{ValueOf(q)}), text)
		}
	}
}

// A bound is no value: how far something may go says nothing of what it is. A fraction of a
// plain number is one in formulas.
func TestBoundsAreNoValues(t *testing.T) {
	_, err := Parse("max 10 mm", NewNames(), measure.Options{})
	assert.ErrorContains(t, err, "write it without max")
	f, err := Parse("1/3 * 30 mm", NewNames(), measure.Options{})
	require.NoError(t, err)
	v, err := f.Eval(nil)
	require.NoError(t, err)
	assert.Equal(t, "10 mm (0.394 in)", f.Words(v, measure.MetricSystem))
	_, err = Parse("380/612 mm", NewNames(), measure.Options{})
	assert.ErrorContains(t, err, "fractions are for inches and feet")
}
