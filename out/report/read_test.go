package report_test

import (
	"bytes"
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/ask/pick"
	"ferrule/compiler/model"
	"ferrule/out/report"
)

// What follows from what was told is read first, with what to do where it is not so; without that a wrong answer on the
// phone would go unnoticed.
func TestReadSaysWhatFollows(t *testing.T) {
	trait := &model.Trait{Name: "Front suspension", Values: []*model.Value{{Name: "Air beam"}, {Name: "Leaf"}}}
	h7 := &model.Platform{Name: "H7", Years: []int{2004, 2005}}
	l := &pick.List{Query: &pick.Query{Platform: h7}, Configurations: big.NewInt(2), OnTheRoad: new(big.Rat)}
	read := func() string {
		var out bytes.Buffer
		require.NoError(t, report.Read(&out, l, report.Options{Width: 200}))
		return out.String()
	}
	assert.Contains(t, read(), "This is about H7.\n")
	assert.NotContains(t, read(), "Then it must be")
	assert.Contains(t, read(), "Nothing can be said for certain yet.")
	l.So = model.Box{Traits: []model.TraitSet{trait.Is(1)}}
	assert.Contains(t, read(), "Then it must be Front suspension Leaf. Check that first; if it is not so, stop.\n")
	l.Configurations = new(big.Int)
	assert.Contains(t, read(), "No such vehicle is listed, so I may not name a part for it.")
	assert.NotContains(t, read(), "Then it must be", "of what does not exist nothing follows")
}
