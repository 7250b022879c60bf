package news_test

import (
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/finding"
	"ferrule/compiler/model"
	"ferrule/compiler/release/compare"
	"ferrule/out/news"
)

func region(years ...int) *finding.Region {
	r := &finding.Region{Exact: true, Configurations: big.NewInt(1)}
	for _, y := range years {
		r.Tight = append(r.Tight, model.Box{Years: []model.Span{{From: y, To: y}}})
	}
	return r
}

func where(years ...int) news.Vehicles { return news.Vehicles{Where: region(years...).Tight} }

// The platforms stand in the order of the catalogue, whatever was told first of them, and
// what is no longer listed behind them; each difference is of one of three kinds.
func TestOf(t *testing.T) {
	cat := &model.Catalogue{Platforms: []*model.Platform{{Name: "H1"}, {Name: "H2"}, {Name: "H3"}}}
	a := []model.Alternative{{{Part: &model.Part{Number: "A"}, Quantity: 1}}}
	b := []model.Alternative{{{Part: &model.Part{Number: "B"}, Quantity: 1}}}
	fits := compare.Answer{Exists: true, Outcome: model.Fitted, Settled: true, Alternatives: a}
	other := compare.Answer{Exists: true, Outcome: model.Fitted, Settled: true, Alternatives: b}
	wrong := compare.Answer{Exists: true, Outcome: model.Fitted, Alternatives: b}
	conflict := compare.Answer{Exists: true, Outcome: model.Conflict}
	gap := compare.Answer{Exists: true}
	absent := compare.Answer{}
	change := func(k compare.Kind, platform string, old, new compare.Answer, r *finding.Region) compare.Change {
		return compare.Change{Kind: k, Platform: platform, Position: "Damper", Old: old, New: new, Region: r}
	}
	long := region(2004)
	long.Rest = big.NewInt(7)
	got := news.Of(&compare.Diff{
		Renames: []compare.Rename{{What: compare.Value, Trait: "Levelling", Old: "Mech", New: "Mechanical", Why: "SECRET"}},
		Splits:  []compare.Split{{Platform: "H2", Trait: "Lift axle"}, {Platform: "H2", Trait: "Tag axle", Dropped: true}},
		Fleets: []compare.Fleet{
			{Kind: compare.Appeared, Platform: "H3", Whole: true, Region: region(2009)},
			{Kind: compare.Appeared, Platform: "H1", Region: region(2010)},
			{Kind: compare.Vanished, Platform: "H1", Region: long},
			{Kind: compare.Vanished, Platform: "H0", Whole: true, Region: region(2001)},
		},
		Changes: []compare.Change{
			change(compare.Gained, "H2", gap, fits, region(2001)),
			change(compare.Settled, "H2", conflict, fits, region(2002)),
			change(compare.Changed, "H2", fits, other, region(2003)),
			{Kind: compare.Changed, Platform: "H2", Position: "Damper", Old: fits, New: other, Region: region(2005), Accepted: &finding.Accepted{Reason: "SECRET"}},
			change(compare.Lost, "H2", fits, absent, region(2006)),
			change(compare.Unsettled, "H2", fits, wrong, region(2007)),
			change(compare.Conflict, "H2", gap, conflict, region(2008)),
		},
		Irregular: []compare.Irregular{{Platform: "H1", Position: "Bar"}},
	}, "R1", cat)
	offered, gone := news.Answer{Exists: true, Outcome: model.Fitted, Settled: true, Alternatives: a}, news.Answer{Settled: true}
	said := func(before, now news.Answer, years ...int) news.Change {
		return news.Change{Position: "Damper", Vehicles: where(years...), Before: before, Now: now}
	}
	require.Len(t, got.Platforms, 4)
	assert.Equal(t, &news.News{Since: "R1", Renames: []news.Rename{{What: "value", Trait: "Levelling", Old: "Mech", New: "Mechanical"}},
		Platforms: []*news.Platform{
			{Name: "H1", Appeared: &news.Vehicles{Where: where(2010).Where}, Vanished: &news.Vehicles{Where: where(2004).Where, More: true}, Unknown: true},
			{Name: "H2", Asked: []string{"Lift axle"}, Unasked: []string{"Tag axle"},
				Covered: []news.Change{said(news.Answer{Exists: true, Settled: true}, offered, 2001), said(news.Answer{Exists: true, Outcome: model.Conflict}, offered, 2002)},
				Changed: []news.Change{said(offered, news.Answer{Exists: true, Outcome: model.Fitted, Settled: true, Alternatives: b}, 2003, 2005)},
				Withdrawn: []news.Change{said(offered, gone, 2006), said(offered, news.Answer{Exists: true, Outcome: model.Fitted}, 2007),
					said(news.Answer{Exists: true, Settled: true}, news.Answer{Exists: true, Outcome: model.Conflict}, 2008)}},
			{Name: "H3", New: true, Appeared: &news.Vehicles{Where: where(2009).Where}},
			{Name: "H0", Gone: true, Vanished: &news.Vehicles{Where: where(2001).Where}},
		}}, got)
	assert.Equal(t, got.Platforms[1], got.Find("H2"))
	assert.Nil(t, got.Find("H7"))
	var none *news.News
	assert.Nil(t, none.Find("H2"))
}
