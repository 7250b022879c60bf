package judge_test

import (
	"context"
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/finding"
	"ferrule/compiler/judge"
	"ferrule/compiler/judge/accept"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
	"ferrule/sheets/cell"
)

func findings(t *testing.T, cat *model.Catalogue, o judge.Options) ([]*finding.Finding, []*decide.Guide) {
	t.Helper()
	o.Ledger, o.Use = accept.New(cat, "2027-03-01"), accept.Use{}
	var out []*finding.Finding
	guides, err := judge.Platforms(context.Background(), cat, o, func(f *finding.Finding) { out = append(out, f) })
	require.NoError(t, err)
	return out, guides
}

// TestWorkers holds that the number of workers changes nothing, not even the order.
func TestWorkers(t *testing.T) {
	s := typical
	s.platforms, s.rows = 12, 10
	one, guides := findings(t, s.make(), judge.Options{Workers: 1, Cases: true})
	require.NotEmpty(t, one)
	for _, workers := range []int{2, 7, 40} {
		many, same := findings(t, s.make(), judge.Options{Workers: workers, Cases: true})
		assert.Len(t, many, len(one))
		require.Len(t, same, len(guides))
		for i, g := range guides {
			for k, a := range g.Answers {
				assert.Equal(t, len(a.Cases), len(same[i].Answers[k].Cases))
			}
		}
		assert.Equal(t, text(one), text(many), "%d workers", workers)
	}
}

// TestGuidesOnRequest holds that guides are given only where something of them is asked for, and
// that findings are the same.
func TestGuidesOnRequest(t *testing.T) {
	s := typical
	s.platforms, s.rows = 3, 10
	bare, none := findings(t, s.make(), judge.Options{})
	assert.Empty(t, none)
	for _, o := range []judge.Options{{Cases: true}, {Unsettled: true}} {
		same, guides := findings(t, s.make(), o)
		require.Len(t, guides, 3)
		assert.Len(t, guides[0].Answers, len(s.make().Positions))
		assert.Equal(t, text(bare), text(same))
	}
}

// text is what can be compared between two catalogues made alike.
func text(fs []*finding.Finding) []string {
	out := make([]string, len(fs))
	for i, f := range fs {
		out[i] = string(f.Code) + f.Platform + f.Position + f.Message
		for _, c := range f.Cells {
			out[i] += c.Place.String()
		}
		if f.Region != nil {
			out[i] += fmt.Sprint(f.Region.Open().Configurations, f.Region.Open().Rest)
			for _, b := range f.Region.Open().Where {
				out[i] += b.String()
			}
			out[i] += f.Region.Open().Example.String()
		}
	}
	return out
}

// TestCancelled holds that a cancelled run is an error and not half an answer.
func TestCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	cat := shape{platforms: 3, traits: 3, values: 2, positions: 2, rows: 4, seed: 5}.make()
	_, err := judge.Platforms(ctx, cat, judge.Options{Ledger: accept.New(cat, ""), Use: accept.Use{}}, func(*finding.Finding) {})
	assert.ErrorIs(t, err, context.Canceled)
}

// irregular makes a catalogue whose rows are boxes without any plan: nobody keeps one
// like it.
func irregular(rows int) *model.Catalogue {
	r := rand.New(rand.NewPCG(3, 4))
	cat := shape{platforms: 1, traits: 24, values: 6, positions: 1, rows: 2, seed: 3}.make()
	cat.Vehicles = cat.Vehicles[:0]
	v := &model.Vehicles{When: model.When{Platforms: cat.Platforms}}
	for _, t := range cat.Traits {
		v.When.Traits = append(v.When.Traits, model.TraitSet{Trait: t, Values: space.All(6)})
	}
	cat.Vehicles = append(cat.Vehicles, v)
	cat.Fitments = nil
	sheet := &cell.Sheet{File: "made.xlsx", Name: "Fitment"}
	for i := range rows {
		f := &model.Fitment{Index: i, When: model.When{Platforms: cat.Platforms}, At: cell.Place{Sheet: sheet, Pos: cell.Pos{Row: int32(i + 2), Col: 1}}}
		for _, t := range cat.Traits {
			if r.IntN(3) == 0 {
				f.When.Traits = append(f.When.Traits, model.TraitSet{Trait: t, Values: some(r, 6)})
			}
		}
		f.Cells = []*model.FitCell{{Row: f, Position: cat.Positions[0], At: f.At,
			Fits: &model.Fits{Outcome: model.Fitted, Alternatives: []model.Alternative{{{Part: cat.Parts[i%3]}}}}}}
		cat.Fitments = append(cat.Fitments, f)
	}
	return cat
}

// TestTooIrregular holds that an answer over the budget is said to be one, with a
// vehicle as an example, and that no count is made up.
func TestTooIrregular(t *testing.T) {
	fs, guides := findings(t, irregular(500), judge.Options{Budget: 200_000, Workers: 1, Cases: true})
	require.NotEmpty(t, fs)
	told := false
	for _, f := range fs {
		if f.Code == "too-irregular" {
			told = true
			assert.Equal(t, finding.Error, f.Severity)
			assert.False(t, f.Region.Exact)
			assert.Nil(t, f.Region.Open().Configurations)
			assert.NotNil(t, f.Region.Open().Example)
			assert.Equal(t, "Position 0", f.Position)
		}
		assert.NotEqual(t, finding.Code("coverage-gap"), f.Code)
	}
	assert.True(t, told)
	assert.Contains(t, fs[0].Message, "nothing is said of the vehicle in the example")
	assert.False(t, guides[0].Answers[0].Exact)
	assert.Empty(t, guides[0].Answers[0].Cases)
}

// TestTooIrregularTogether holds that positions which are each within the budget, or just beyond
// it, do not add up: those that come when nothing is left are told with an example, the same with
// guides and without, with any number of workers, and what those before them say stands.
func TestTooIrregularTogether(t *testing.T) {
	cat := irregular(60)
	const positions = 40
	for i := 1; i < positions; i++ {
		pos := *cat.Positions[0]
		pos.Name, pos.Index = fmt.Sprintf("Position %d", i), i
		pos.Rows = []*model.PositionRow{{Position: &pos, When: model.When{Platforms: cat.Platforms}, Quantity: 1}}
		cat.Positions = append(cat.Positions, &pos)
		for _, f := range cat.Fitments {
			c := *f.Cells[0]
			c.Position = &pos
			f.Cells = append(f.Cells, &c)
		}
	}
	o := judge.Options{Budget: 20_000, Workers: 1}
	alone, _ := findings(t, cat, o)
	o.Cases, o.Workers = true, 4
	guided, guides := findings(t, cat, o)
	together := 0
	for _, f := range alone {
		if f.Code == finding.TooIrregular && strings.Contains(f.Message, "together are too irregular") {
			together++
			assert.NotNil(t, f.Region.Open().Example)
			assert.False(t, f.Region.Exact)
		}
	}
	assert.Greater(t, together, positions/2)
	assert.Less(t, together, positions, "the first is looked at")
	assert.Equal(t, text(alone), text(guided))
	assert.False(t, guides[0].Answers[positions-1].Exact)
}
