package guard_test

import (
	"sync/atomic"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/sheets/guard"
)

// caught gives the fault that do panics with.
func caught(t *testing.T, do func()) (f *guard.Fault) {
	t.Helper()
	defer func() {
		var ok bool
		f, ok = recover().(*guard.Fault)
		require.True(t, ok, "nothing was thrown")
	}()
	do()
	return nil
}

func plantedHere() { panic("planted") }

func TestPanicReachesWhoWaits(t *testing.T) {
	var others atomic.Int32
	g := guard.NewGroup()
	f := caught(t, func() {
		for i := range 5 {
			g.Go(func() {
				defer guard.About("reading a.xlsx")
				if i == 3 {
					plantedHere()
				}
				others.Add(1)
			})
		}
		<-g.Failed()
		g.Wait()
	})
	assert.Equal(t, "planted", f.Cause)
	assert.Equal(t, []string{"reading a.xlsx"}, f.About)
	assert.Contains(t, string(f.Stack), "plantedHere", "the stack is that of the goroutine")
	assert.Equal(t, int32(4), others.Load(), "the others end as they would")
	assert.Contains(t, f.Error(), "plantedHere")
}

// A fault that passes several keeps its first stack and gathers what they did.
func TestAbout(t *testing.T) {
	f := caught(t, func() {
		defer guard.About("outer")
		defer guard.About("inner")
		plantedHere()
	})
	assert.Equal(t, []string{"inner", "outer"}, f.About)
	assert.Contains(t, string(f.Stack), "plantedHere")
	assert.NotPanics(t, func() { defer guard.About("nothing") })
}

func TestWaitWithoutFault(t *testing.T) {
	g := guard.NewGroup()
	done := false
	g.Go(func() { done = true })
	g.Wait()
	assert.True(t, done)
	select {
	case <-g.Failed():
		t.Error("nothing failed")
	default:
	}
}

func TestBesideTellsItsFault(t *testing.T) {
	assert.Nil(t, <-guard.Beside(func() {}))
	f := <-guard.Beside(plantedHere)
	assert.Equal(t, "planted", f.Cause)
	assert.Contains(t, string(f.Stack), "plantedHere")
}
