package sheets

import "strings"

// texts puts short texts into long strings, so that a thousand cost one allocation.
// What it gives may be kept; each keeps at most textsSize bytes of others alive.
type texts struct{ built strings.Builder }

const textsSize = 8 << 10

// add gives p as a string.
func (t *texts) add(p []byte) string {
	if len(p) > textsSize/8 {
		return string(p)
	}
	at := t.built.Len()
	if t.built.Cap()-at < len(p) {
		t.built.Reset() // forgets the last string, which belongs to its texts now
		t.built.Grow(textsSize)
		at = 0
	}
	t.built.Write(p)
	return t.built.String()[at:]
}
