package compare_test

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/model"
	"ferrule/compiler/release/compare"
)

// Air is there from 2007 on: what changes on it, and names no year, is published of no
// earlier one.
func TestWhatChangesIsToldTight(t *testing.T) {
	vehicles := "-- c.xlsx/Vehicles --\nPlatform\tYears\tSuspension\tOn the road\nH7\t2007+\tAir\t60\nH7\t\tSteel\t60\n"
	old, _ := release(t, vehicles)
	now, _ := release(t, vehicles+"-- c.xlsx/Fitment --\nPlatform\tSuspension\tDamper\nH7\tAir\tQX-2\nH7\tSteel\tQX-2\n")
	d, err := compare.Between(context.Background(), old, now, compare.Options{Tight: true})
	require.NoError(t, err)
	require.Len(t, d.Changes, 1)
	r := d.Changes[0].Region
	require.Len(t, r.Tight, 1)
	assert.Nil(t, r.Where[0].Years)
	require.Len(t, r.Tight[0].Years, 1)
	assert.Equal(t, 2007, r.Tight[0].Years[0].From)
	assert.Equal(t, "Suspension Air", model.Box{Traits: r.Tight[0].Traits}.String())
	assert.Empty(t, r.Tight[0].So)

	d, err = compare.Between(context.Background(), old, now, compare.Options{})
	require.NoError(t, err)
	assert.Nil(t, d.Changes[0].Region.Tight)
}
