package figures

import (
	"slices"
	"strings"
	"unicode"
)

// sense are the words of a language that turn what a text says around: those that deny, and those of
// sides. They are common words of the language, from memory. A word that ends in * is the beginning of one.
type sense struct {
	deny                     []string
	left, right, front, rear []string
	common                   []string // words that other languages here do not have, by which the language is known
}

// sensesOf gives the words of a language by its base, of those that guides can be written in; false for others.
func sensesOf(tag string) (sense, bool) {
	base, _, _ := strings.Cut(tag, "-")
	s, ok := map[string]sense{
		"en": {words("not never no nothing nobody none nor neither cannot cant dont doesnt wont mustnt isnt without"),
			words("left"), words("right"), words("front"), words("rear"),
			words("the and of with is are it this that when must be not which")},
		"fr": {words("ne pas jamais non aucun* rien ni sans personne nul* interdit* défen* éviter évitez impossible*"),
			words("gauche*"), words("droit*"), words("avant* devant"), words("arrière* derrière"),
			words("le les des du une est pas avec pour dans ne sur et l d qu au aux elle il")},
		"es": {words("no nunca jamás ningun* ningún nada ni sin nadie prohib* evit* tampoco imposible*"),
			words("izquierd*"), words("derech*"), words("delanter* frente frontal* delante"), words("traser* posterior* detrás atrás"),
			words("el los las del con por para y una su al que lo está")},
		"de": {words("nicht* nie niemals kein* ohne weder noch niemand verboten unmöglich* vermeid*"),
			words("link*"), words("recht*"), words("vorn* vorder* front*"), words("hint* rück* heck*"),
			words("der die das den dem ein eine und mit ist nicht auf zu im von bei sich wird")},
	}[base]
	return s, ok
}

func words(list string) []string { return strings.Fields(list) }

// Turned gives a word of a text, and what stands in its place in the translation, where the translation says the
// opposite side; or a word that denies something and "" where nothing in the translation does. "" twice
// where neither is so, or the languages are not known.
func Turned(text, in, translation, into string) (was, is string) {
	from, ok := sensesOf(in)
	to, known := sensesOf(into)
	if !ok || !known {
		return "", ""
	}
	said, says := wordsOf(text), wordsOf(translation)
	for _, pair := range [][2]int{{0, 1}, {1, 0}, {2, 3}, {3, 2}} {
		here, there := from.sides()[pair[0]], from.sides()[pair[1]]
		same, other := to.sides()[pair[0]], to.sides()[pair[1]]
		if w := hit(said, here); w != "" && hit(said, there) == "" && hit(says, same) == "" {
			if o := hit(says, other); o != "" {
				return w, o
			}
		}
	}
	if w := hit(said, from.deny); w != "" && hit(says, to.deny) == "" {
		return w, ""
	}
	return "", ""
}

func (s sense) sides() [4][]string { return [4][]string{s.left, s.right, s.front, s.rear} }

// Reads gives the language that a text seems to be written in, of those that guides can be written in, where
// it is clearly another than the one that is named: three of its common words or more, and none of the named one's.
func Reads(text, tag string) string {
	own, ok := sensesOf(tag)
	if !ok {
		return ""
	}
	says := wordsOf(text)
	if count(says, own.common) > 0 {
		return ""
	}
	for _, other := range []string{"en", "fr", "es", "de"} {
		o, _ := sensesOf(other)
		if base, _, _ := strings.Cut(tag, "-"); base != other && count(says, o.common) >= 3 {
			return other
		}
	}
	return ""
}

// Left tells whether a translation is the text itself, left as it was: a sentence in the text's language.
func Left(text, in, translation string) bool {
	own, ok := sensesOf(in)
	says := wordsOf(text)
	return ok && len(says) >= 3 && count(says, own.common) > 0 && slices.Equal(says, wordsOf(translation))
}

// wordsOf cuts a text into words in small letters, also at apostrophes; `don't` stays whole.
func wordsOf(text string) []string {
	text = strings.NewReplacer("n't", "nt", "n’t", "nt", " n'", " ne ", " n’", " ne ").Replace(" " + strings.ToLower(text))
	return strings.FieldsFunc(text, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) && !unicode.IsMark(r) })
}

// hit gives the first word that is one of a list; "" for none. A number behind `no` makes it one of a number.
func hit(said, list []string) string {
	for i, w := range said {
		number := w == "no" && i+1 < len(said) && strings.ContainsFunc(said[i+1], unicode.IsDigit)
		if !number && among(w, list) {
			return w
		}
	}
	return ""
}

func among(w string, list []string) bool {
	return slices.ContainsFunc(list, func(l string) bool {
		begin, open := strings.CutSuffix(l, "*")
		return w == l || open && strings.HasPrefix(w, begin)
	})
}

func count(said, list []string) (n int) {
	for _, w := range said {
		if slices.Contains(list, w) {
			n++
		}
	}
	return n
}
