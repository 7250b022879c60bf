package judge

import (
	"sync"

	"ferrule/compiler/finding"
	"ferrule/compiler/judge/accept"
	"ferrule/compiler/judge/check"
)

// teller tells what is found on the platforms in their order, as soon as those before are told,
// so that no worker keeps what it has found.
type teller struct {
	checks *check.Run
	report func(*finding.Finding)
	use    accept.Use // filled in

	mutex sync.Mutex
	found []*check.Result // by platform; nil for one that is not done, or told
	next  int             // the first platform that is not told
}

// done takes what was found on a platform; workers may call it at once.
func (t *teller) done(i int, r *check.Result) {
	t.mutex.Lock()
	defer t.mutex.Unlock()
	t.found[i] = r
	for ; t.next < len(t.found) && t.found[t.next] != nil; t.next++ {
		t.checks.Tell(t.found[t.next], t.report, t.use)
		t.found[t.next] = nil
	}
}
