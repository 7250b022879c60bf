package tongue_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/out/tongue"
)

func of(t *testing.T, tag string) *tongue.Tongue {
	t.Helper()
	out, ok := tongue.Of(tag)
	require.True(t, ok, tag)
	return out
}

func TestTongues(t *testing.T) {
	assert.Equal(t, "fr-CA", of(t, "fr-CA").Tag())
	assert.Equal(t, "Plateformes", of(t, "fr-CA").Say("Platforms"), "a variety speaks as its language")
	assert.Equal(t, "Numéros A à B", of(t, "fr").Say("Numbers %s to %s", "A", "B"))
	assert.Equal(t, "Nothing says this.", of(t, "de").Say("Nothing says this."), "English, where there are no words")
	for _, tag := range []string{"it", "", "x y", "und"} {
		_, ok := tongue.Of(tag)
		assert.False(t, ok, tag)
	}
}

// Plural rules of CLDR: in French none is one, in English, Spanish and German it is not.
func TestCounts(t *testing.T) {
	key := "Asked in the guides of %d platforms."
	for tag, want := range map[string][3]string{
		"en": {"Asked in the guides of 0 platforms.", "Asked in the guide of 1 platform.", "Asked in the guides of 2 platforms."},
		"fr": {"Demandé dans le guide de 0 plateforme.", "Demandé dans le guide de 1 plateforme.", "Demandé dans les guides de 2 plateformes."},
		"es": {"Se pregunta en las guías de 0 plataformas.", "Se pregunta en la guía de 1 plataforma.", "Se pregunta en las guías de 2 plataformas."},
		"de": {"Gefragt in den Leitfäden von 0 Plattformen.", "Gefragt im Leitfaden von 1 Plattform.", "Gefragt in den Leitfäden von 2 Plattformen."},
	} {
		for n, words := range want {
			assert.Equal(t, words, of(t, tag).Count(key, n), tag)
		}
	}
}

func TestDecimalSigns(t *testing.T) {
	for tag, want := range map[string]string{"en": ".", "fr": ",", "es": ",", "de": ",", "fr-CA": ",", "es-MX": ".", "de-CH": "."} {
		assert.Equal(t, want, of(t, tag).Decimal(), tag)
	}
}

func TestLists(t *testing.T) {
	for tag, want := range map[string][2]string{"en": {"A, B and C", "A, B or C"}, "fr": {"A, B et C", "A, B ou C"}, "es": {"A, B y C", "A, B o C"}, "de": {"A, B und C", "A, B oder C"}} {
		assert.Equal(t, want, [2]string{of(t, tag).And([]string{"A", "B", "C"}), of(t, tag).Or([]string{"A", "B", "C"})}, tag)
	}
	assert.Empty(t, of(t, "fr").And(nil))
	assert.Equal(t, "A", of(t, "fr").Or([]string{"A"}))
	es := of(t, "es")
	for next, want := range map[string]string{"hilo": "A e hilo", "Inox": "A e Inox", "hierro": "A y hierro", "iones": "A y iones", "yugo": "A y yugo"} {
		assert.Equal(t, want, es.And([]string{"A", next}))
	}
	for next, want := range map[string]string{"otro": "A u otro", "8": "A u 8", "11": "A u 11", "110": "A o 110", "horno": "A u horno", "eje": "A o eje"} {
		assert.Equal(t, want, es.Or([]string{"A", next}))
	}
}

func TestPieces(t *testing.T) {
	fr, key := of(t, "fr"), "Look it up in the %s, or begin at the %s."
	assert.Equal(t, "Cherchez dans la liste «\u00a0", fr.Piece(key, 0))
	assert.Equal(t, "\u00a0», ou commencez par «\u00a0", fr.Piece(key, 1))
	assert.Equal(t, "\u00a0».", fr.Piece(key, 2))
	assert.Empty(t, fr.Piece(key, 3))
}

// A tongue that tests make says what they want, and English where they want nothing.
func TestMade(t *testing.T) {
	odd := tongue.Made("fr", func(key string) tongue.Phrase {
		if key == "%s to %s" {
			return tongue.Phrase{Text: "%[2]s < %[1]s"}
		}
		return tongue.Phrase{}
	})
	assert.Equal(t, "2 < 1", odd.Say("%s to %s", "1", "2"))
	assert.Equal(t, "Parts", odd.Say("Parts"))
}
