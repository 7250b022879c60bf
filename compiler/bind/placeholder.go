package bind

import (
	"strings"
	"unicode"

	"ferrule/schema/word"
)

// placeholder tells whether a cell holds a sign or a word that says nothing by itself: a mark, a sign that
// repeats another cell, or that something is still to come.
func placeholder(text string) bool {
	if text == "" {
		return false
	}
	return !strings.ContainsFunc(text, func(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) }) ||
		placeholders()[strings.Trim(word.Fold(text), " .:!?…()[]<>*")]
}

// placeholders are words that stand in place of a text, in the languages that guides have.
func placeholders() map[string]bool {
	out := map[string]bool{}
	for _, w := range strings.Split("tbd,tba,tbc,todo,to do,n/a,na,x,xx,xxx,same,same as above,as above,see above,ditto,dito,idem,pending,missing,"+
		"translate,to be translated,not translated,needs translation,à traduire,a traduire,à faire,voir ci-dessus,"+
		"por traducir,pendiente,ver arriba,s. o,siehe oben,offen,fehlt,zu übersetzen", ",") {
		out[w] = true
	}
	return out
}
