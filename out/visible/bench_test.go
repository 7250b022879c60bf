package visible

import (
	"io"
	"strings"
	"testing"
)

// BenchmarkWriter writes JSON with its indents.
func BenchmarkWriter(b *testing.B) {
	text := []byte(strings.Repeat("      \"message\": \"no part is called \\\"HPR-32\\\"\",\n      \"cells\": [\n", 1000))
	w := NewWriter(io.Discard).Set(JSON)
	b.SetBytes(int64(len(text)))
	for b.Loop() {
		if _, err := w.Write(text); err != nil {
			b.Fatal(err)
		}
	}
}
