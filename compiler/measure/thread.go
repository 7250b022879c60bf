package measure

import (
	"regexp"
	"strings"
	"sync"
)

// Thread tells whether a text names a screw thread, as far as its form goes: 1/2-13,
// 3/4-16 UNF, #10-32, M16x1.5, 1/4 NPT, G 1/4. Which threads exist is not looked up.
func Thread(text string) bool {
	text = strings.TrimSpace(folding().Replace(text))
	for _, form := range threads() {
		if form.MatchString(text) {
			return true
		}
	}
	return false
}

// threads are the forms of inch threads (a diameter, a hyphen and how many to the inch, the
// series behind), of metric ones (M, the diameter and, where it is fine, the pitch), and of
// pipe threads. Common practice, no source.
var threads = sync.OnceValue(func() []*regexp.Regexp {
	const diameter = `(?:\d+[ -])?\d+/\d+|#\d+|\d*\.\d+|\d+`
	const class = `(?:[ -]*\d?[ABGHgh]{1,2}\d?)?(?: ?(?:LH|RH))?`
	out := []*regexp.Regexp{}
	for _, form := range []string{
		`(?:` + diameter + `)(?: ?"| in)? ?- ?\d{1,2} ?(?:UN(?:C|F|EF|S|R|RC|RF)?|N[CFS]|BS[FW]|UNJF)` + class,
		`(?:(?:\d+[ -])?\d+/\d+|#\d+)(?: ?"| in)? ?- ?\d{1,2}` + class,
		`M ?\d+(?:[.,]\d+)?(?: *x *\d+(?:[.,]\d+)?)?(?: ?- ?\d[A-Za-z]{1,2}(?:\d[A-Za-z])?)?(?: ?(?:LH|RH))?`,
		`(?:` + diameter + `)(?: ?"| in)?(?: ?- ?\d{1,2}(?:\.\d)?)? ?(?:NPTF?|NPSM?|BSPP?|BSPT|JIC|ORFS)`,
		`(?:G|R|Rc|Rp|Tr|PT|PF) ?(?:` + diameter + `)(?: *x *\d+)?(?: ?[AB])?`,
	} {
		out = append(out, regexp.MustCompile(`^(?i:`+form+`)$`))
	}
	return out
})
