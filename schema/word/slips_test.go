package word

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// TestSlips holds Slips against comparing with every name.
func TestSlips(t *testing.T) {
	name := rapid.StringOfN(rapid.SampledFrom([]rune("aAbcé1 ")), 0, 6, -1)
	rapid.Check(t, func(t *rapid.T) {
		names := rapid.SliceOfN(name, 0, 30).Draw(t, "names")
		s := name.Draw(t, "s")
		if got, want := NewSlips(names).Within(s), Within(s, names, 1); !assert.ObjectsAreEqual(want, got) {
			t.Fatalf("%q in %q: %q, want %q", s, names, got, want)
		}
	})
}

// BenchmarkSlips asks about 20,000 names that nobody has, among 20,000.
func BenchmarkSlips(b *testing.B) {
	names, others := make([]string, 20_000), make([]string, 20_000)
	for i := range names {
		names[i], others[i] = fmt.Sprintf("HD-%d", 10_000+i), fmt.Sprintf("HQ-%d", 10_000+i)
	}
	for b.Loop() {
		x := NewSlips(names)
		for _, o := range others {
			x.Within(o)
		}
	}
}
