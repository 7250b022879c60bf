package compiler_test

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler"
)

// TestEveryStageEndsWithItsContext ends the context in the midst of each stage, which then goes
// on for ever: Compile ends all the same, and tells of no further stage.
func TestEveryStageEndsWithItsContext(t *testing.T) {
	for _, name := range []string{compiler.StageRead, compiler.StageValidate, compiler.StageBind, compiler.StagePictures, compiler.StageCheck} {
		ctx, stop := context.WithCancel(context.Background())
		endless, told := make(chan bool), make(chan string, 100)
		progress := func(s compiler.Stage) {
			told <- s.Name
			if s.Name == name {
				stop()
				<-endless
			}
		}
		res, err := compiler.Compile(ctx, compiler.Input{Paths: []string{"../testdata/demo"}}, compiler.Options{Today: "2027-03-01", Progress: progress})
		require.ErrorIs(t, err, context.Canceled, name)
		assert.Nil(t, res)
		for len(told) > 1 {
			assert.NotEqual(t, name, <-told)
		}
		assert.Equal(t, name, <-told)
		close(endless)
	}
}
