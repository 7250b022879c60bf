package wire

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"ferrule/compiler/model"
)

// A draft holds words that no list has; the files keep their form.
func TestWordsThatNoListHas(t *testing.T) {
	p := PositionOf(&model.Position{Name: "A", Axle: "fore", Side: "rihgt"})
	assert.Equal(t, PositionHead{Position: "A"}, p)
	p = PositionOf(&model.Position{Name: "A", Axle: "tag", Side: "right"})
	assert.Equal(t, PositionHead{Position: "A", Axle: "tag", Side: "right"}, p)
	for stated, want := range map[string]string{"": "note", "severe": "warning", "danger": "danger", "notice": "notice"} {
		assert.Equal(t, want, Level(&model.Caution{Level: stated}), stated)
	}
}

func TestQuantityStandsWhereItIsOne(t *testing.T) {
	rows := func(quantities ...int) *model.Position {
		p := &model.Position{}
		for _, q := range quantities {
			p.Rows = append(p.Rows, &model.PositionRow{Quantity: q})
		}
		return p
	}
	assert.Equal(t, 2, PositionOf(rows(2, 2)).Quantity)
	assert.Zero(t, PositionOf(rows(2, 4, 2)).Quantity)
}

func TestTellOfThePlatformStandsAlone(t *testing.T) {
	own, other := &model.Platform{}, &model.Platform{Index: 1}
	tells := []model.Tell{{Text: "all"}, {Text: "own", Platform: own, Effort: 4}, {Text: "other", Platform: other}, {Text: "all"}}
	assert.Equal(t, "own", Tell(tells, own))
	assert.Equal(t, "all", Tell(tells, nil))
	assert.Equal(t, "all", Tell(tells[:1], own))
}
