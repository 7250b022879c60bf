package cli

import (
	"runtime/debug"

	"ferrule/compiler"
)

const (
	largeRows   = 100_000 // from how many rows on a catalogue is large
	largeGrowth = 30      // percent that its heap may grow by before the collector comes again
)

// frugal has the collector come more often while the guides of a large catalogue are made and
// published: that takes so much longer than collecting that it costs a build little time, and a third of the
// memory is saved. What it gives ends it.
func (r *run) frugal() (end func()) {
	tell, before, set := r.options.Progress, 0, false
	r.options.Progress = func(s compiler.Stage) {
		if s.Name == compiler.StageBind && !set && s.Rows >= largeRows {
			before, set = debug.SetGCPercent(largeGrowth), true
		}
		tell(s)
	}
	return func() {
		if set {
			debug.SetGCPercent(before)
		}
	}
}
