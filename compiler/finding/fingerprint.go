package finding

import (
	"crypto/sha256"
	"encoding/hex"
	"strings"

	"ferrule/schema/word"
)

// Fingerprint is the same for one finding in two states of a catalogue, wherever its
// cells have moved: it holds what is found, where on the vehicles and in which words,
// and neither addresses nor how many vehicles there are. Findings about different
// vehicles may share it.
func (f *Finding) Fingerprint() string {
	gist := f.Constant
	if gist == "" {
		gist = f.Message
	}
	words := []string{string(f.Code), f.Severity.String(), f.Platform, f.Position, f.Part, gist}
	for i, w := range words {
		words[i] = word.Fold(w)
	}
	sum := sha256.Sum256([]byte(strings.Join(words, "\x00")))
	return hex.EncodeToString(sum[:16])
}
