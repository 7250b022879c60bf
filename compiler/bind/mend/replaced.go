package mend

import (
	"fmt"
	"regexp"
)

// How people write in a fitment cell that one part has taken the place of another one.
var (
	replacedBy = regexp.MustCompile(`(?i)^(\S.*?)\s*[,;:(]*\s*(?:-+>|=+>|→|⇒|➔|➜|»|>+|(?:(?:is|was|now|nla|n\.l\.a\.?|no longer available|discontinued|obsolete|disc\.?|obs\.?)\s*[,;:.\-–—]*\s*)*(?:superseded|superceded|replaced|succeeded)\s+(?:by|with|to)|(?:(?:is|now|nla|n\.l\.a\.?|no longer available|discontinued|obsolete|disc\.?|obs\.?)\s*[,;:.\-–—]*\s*)+(?:use|order|see|try|fit|take|becomes?|now)|(?:use|order|becomes?|now|use instead)\s*:?)\s+(\S.*?)\)?$|^(\S.*?)\s*(?:-+>|=+>|→|⇒|➔|➜)\s*(\S.*)$`)
	replaces   = regexp.MustCompile(`(?i)^(\S.*?)\s*[,;:(]*\s*(?:<-+|←|(?:supersedes|supercedes|replaces|succeeds|(?:in place|instead) of|formerly|was|ex)\s)\s*(\S.*?)\)?$`)
)

// replaced reads a cell that names a part and the one in its place.
func (f Fitment) replaced(text string) (Advice, bool) {
	old, new := "", ""
	if m := replacedBy.FindStringSubmatch(text); m != nil {
		old, new = m[1]+m[3], m[2]+m[4]
	} else if m := replaces.FindStringSubmatch(text); m != nil {
		old, new = m[2], m[1]
	}
	to, ok := f.exact(trimmed(new))
	if !ok {
		return Advice{}, false
	}
	from, known := f.exact(trimmed(old))
	if !known || from.number == to.number || !f.Reads(to.text) {
		return Advice{}, false
	}
	return Advice{Write: []string{to.text}, Aside: []string{from.number},
		Says: fmt.Sprintf("is taken to say that %s has taken the place of %s; write %s, and in Parts %s under Replaced by of %s", to.number, from.number, to.text, to.number, from.number)}, true
}
