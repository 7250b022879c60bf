package parallel

import (
	"context"
	"ferrule/sheets/guard"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestUntilWaits(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	defer stop()
	for _, ctx := range []context.Context{context.Background(), ctx} {
		done := false
		require.NoError(t, Until(ctx, func() { done = true }))
		assert.True(t, done)
	}
	stop()
	require.ErrorIs(t, Until(ctx, func() { t.Error("it has ended before") }), context.Canceled)
}

// What goes on for ever ends with its context.
func TestUntilEnds(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	release := make(chan bool)
	defer close(release)
	require.ErrorIs(t, Until(ctx, func() { stop(); <-release }), context.Canceled)
}

func TestUntilPanics(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	defer stop()
	defer func() {
		fault, ok := recover().(*guard.Fault)
		require.True(t, ok)
		assert.Equal(t, "broken", fault.Cause)
	}()
	_ = Until(ctx, func() { panic("broken") })
	t.Error("nothing was thrown")
}
