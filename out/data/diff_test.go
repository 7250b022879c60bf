package data_test

import (
	"bytes"
	"encoding/json"
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/finding"
	"ferrule/compiler/model"
	"ferrule/compiler/release/compare"
	"ferrule/out/data"
)

// TestKitsAreOpenedInADiff holds that whoever reads a difference as JSON sees what each
// kit of it holds, kits in it as well, and that one that leads back to itself ends there.
func TestKitsAreOpenedInADiff(t *testing.T) {
	inner := &model.Part{Number: "K-2", Contents: []model.Component{{Part: &model.Part{Number: "HD-20"}, Quantity: 3}}}
	outer := &model.Part{Number: "K-1"}
	outer.Contents = []model.Component{{Part: inner, Quantity: 1}, {Part: outer, Quantity: 1}}
	vehicles := &finding.Region{Configurations: big.NewInt(1), OnTheRoad: new(big.Rat)}
	d := &compare.Diff{Changes: []compare.Change{{Platform: "H7", Position: "Roll bar", Region: vehicles,
		New: compare.Answer{Exists: true, Outcome: model.Fitted, Alternatives: []model.Alternative{{{Part: outer, Quantity: 1}}}}}}}
	var b bytes.Buffer
	require.NoError(t, data.Diff(&b, &data.Compared{Diff: d}))

	type item struct {
		Part  string
		Holds []item
	}
	var got struct {
		Changes []struct {
			New struct{ Alternatives [][]item }
		}
	}
	require.NoError(t, json.Unmarshal(b.Bytes(), &got))
	require.Len(t, got.Changes, 1)
	assert.Equal(t, [][]item{{{"K-1", []item{{"K-1", nil}, {"K-2", []item{{"HD-20", nil}}}}}}}, got.Changes[0].New.Alternatives)
}
