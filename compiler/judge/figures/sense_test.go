package figures_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"ferrule/compiler/judge/figures"
)

func TestTurned(t *testing.T) {
	for _, tt := range []struct{ text, in, translation, into, was, is string }{
		{"Never turn it.", "en", "Tournez-le.", "fr", "never", ""},
		{"Never turn it.", "en", "Ne le tournez jamais.", "fr", "", ""},
		{"the axle has no eye", "en", "l’essieu n’a pas d’œil", "fr", "", ""},
		{"the axle has no eye", "en", "l’essieu a un œil", "fr", "no", ""},
		{"To 80 N·m, not more.", "en", "À 80 N·m.", "fr", "not", ""},
		{"Nothing has an eye.", "en", "L'axe n'a d'œil.", "fr", "", ""},
		{"Don't turn it.", "en", "Gírelo.", "es", "dont", ""},
		{"Don’t turn it.", "en", "No lo gire.", "es", "", ""},
		{"Use without leaves.", "en", "Ohne Blattfedern verwenden.", "de", "", ""},
		{"Part no. 5", "en", "Pièce 5", "fr", "", ""},
		{"Left-hand", "en", "À droite", "fr", "left", "droite"},
		{"Left-hand", "en", "À gauche", "fr", "", ""},
		{"Left and right", "en", "À droite et à gauche", "fr", "", ""},
		{"Put it right.", "en", "Réparez-le.", "fr", "", ""},
		{"Rear damper", "en", "Amortisseur avant", "fr", "rear", "avant"},
		{"Front damper", "en", "Amortiguador trasero", "es", "front", "trasero"},
		{"Ne le tournez pas.", "fr", "Turn it.", "en", "ne", ""},
		{"Never turn it.", "en", "Kääntäkää.", "fi", "", ""},
		{"", "en", "", "fr", "", ""},
	} {
		was, is := figures.Turned(tt.text, tt.in, tt.translation, tt.into)
		assert.Equal(t, tt.was, was, "%s | %s", tt.text, tt.translation)
		assert.Equal(t, tt.is, is, "%s | %s", tt.text, tt.translation)
	}
}

func TestReads(t *testing.T) {
	for _, tt := range []struct{ text, tag, want string }{
		{"Ne le tournez jamais avec la tige.", "es", "fr"},
		{"Ne le tournez jamais avec la tige.", "fr-CA", ""},
		{"No lo gire nunca por el vástago.", "fr", "es"},
		{"Nicht mit dem Stab und der Zange drehen.", "fr", "de"},
		{"It must be looked at when the axle is down.", "de", "en"},
		{"Amortisseur avant", "es", ""},
		{"", "es", ""},
		{"Ne le tournez pas.", "fi", ""},
	} {
		assert.Equal(t, tt.want, figures.Reads(tt.text, tt.tag), tt.text)
	}
}
