package formula

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/measure"
)

func (b *bench) rule(t testing.TB, left string, must Must, right string) *Rule {
	t.Helper()
	r, err := NewRule(b.parse(t, left), must, b.parse(t, right))
	require.NoError(t, err)
	return r
}

// A range is taken at its worst.
func TestJudge(t *testing.T) {
	b := newBench(t, given{"Stroke", "230 mm"}, given{"Free", "230-240 mm"}, given{"Travel", "220 mm"}, given{"Worst", "225-230 mm"})
	for _, tt := range []struct {
		left  string
		must  Must
		right string
		short string // "" where the rule holds
	}{
		{"Stroke", AtLeast, "Travel + 10 mm", ""},
		{"Stroke", AtLeast, "Travel + 10.001 mm", "short by 0.001 mm (0.0000394 in)"},
		{"Stroke", AtLeast, "Travel + 14 mm", "short by 4 mm (0.157 in)"},
		{"Stroke", AtMost, "Travel + 10 mm", ""},
		{"Stroke", AtMost, "Travel", "over by 10 mm (0.394 in)"},
		{"Free", AtLeast, "Worst", ""},
		{"Free", AtLeast, "Worst + 1 mm", "short by 1 mm (0.0394 in)"},
		{"Worst", AtMost, "Free", ""},
		{"Free", AtMost, "Free", "over by 10 mm (0.394 in)"},
		{"Free", EqualTo, "Free", ""},
		{"Stroke", EqualTo, "0.23 m", ""},
		{"Stroke", EqualTo, "Free", "off by 10 mm (0.394 in)"},
		{"Free", EqualTo, "Worst", "off by 10 mm (0.394 in)"},
		{"Stroke", EqualTo, "233 mm", "off by 3 mm (0.118 in)"},
	} {
		r := b.rule(t, tt.left, tt.must, tt.right)
		v, err := r.Judge(b.of(r.Uses))
		require.NoError(t, err)
		assert.Equal(t, tt.short == "", v.Holds, "%s %s %s", tt.left, tt.must, tt.right)
		if !v.Holds {
			assert.Equal(t, tt.short, r.Short(v, measure.MetricSystem))
			assert.False(t, r.Certain(b.of(r.Uses)))
		}
	}
}

func TestUnlikeSides(t *testing.T) {
	b := newBench(t, given{"Stroke", "230 mm"}, given{"Load", "60 kN"})
	_, err := NewRule(b.parse(t, "Stroke * 2"), AtLeast, b.parse(t, "Load"))
	assert.EqualError(t, err, "the rule compares a length, Stroke * 2, with a force, Load; only like can be compared")
}

func TestRuleUses(t *testing.T) {
	b := newBench(t, given{"A", "1"}, given{"B", "2"}, given{"C", "3"}, given{"D", "0"})
	r := b.rule(t, "B - A", AtMost, "C / A - B")
	assert.Equal(t, []int{1, 0, 2}, r.Uses)
	assert.True(t, r.Divides())
	v, err := r.Judge(b.of(r.Uses))
	require.NoError(t, err)
	assert.True(t, v.Holds)
	assert.Equal(t, "1 1 1 1", v.Left.Key()+" "+v.Right.Key())
	r = b.rule(t, "B", AtLeast, "C / D")
	_, err = r.Judge(b.of(r.Uses))
	assert.ErrorIs(t, err, ErrUndefined)
	assert.False(t, b.rule(t, "A", AtLeast, "B / 2").Divides())
}

// Certain is sure of what plainly holds, for one value and for a hull, and of nothing
// that does not.
func TestCertain(t *testing.T) {
	b := newBench(t, given{"Stroke", "230 mm"}, given{"Travel", "200 mm"}, given{"Other", "225 mm"}, given{"Far", "300 mm"})
	r := b.rule(t, "Stroke", AtLeast, "Travel + 1 mm")
	values := b.of(r.Uses)
	assert.True(t, r.Certain(values))
	values[1] = values[1].Hull(b.values[2])
	assert.True(t, r.Certain(values))
	values[1] = values[1].Hull(b.values[3])
	assert.False(t, r.Certain(values))
	assert.False(t, b.rule(t, "Stroke", EqualTo, "Stroke").Certain(b.values[:1]), "equality takes rationals")
	assert.True(t, b.rule(t, "Travel", AtMost, "Stroke").Certain([]Value{b.values[1], b.values[0]}))
	assert.Zero(t, testing.AllocsPerRun(100, func() { r.Certain(values) }))
}
