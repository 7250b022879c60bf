package mend

import (
	"fmt"
	"regexp"
)

// How people write in a fitment cell that one part has taken the place of another one.
var (
	replacedBy = regexp.MustCompile(`(?i)^(\S.*?)\s*[,;:(]*\s*(?:-+>|=+>|→|⇒|➔|➜|»|>+|(?:(?:is|was|now|nla|n\.l\.a\.?|no longer available|discontinued|obsolete|disc\.?|obs\.?)\s*[,;:.\-–—]*\s*)*(?:superseded|superceded|replaced|succeeded)\s+(?:by|with|to)|(?:(?:is|now|nla|n\.l\.a\.?|no longer available|discontinued|obsolete|disc\.?|obs\.?)\s*[,;:.\-–—]*\s*)+(?:use|order|see|try|fit|take|becomes?|now)|(?:use|order|becomes?|now|use instead)\s*:?)\s+(\S.*?)\)?$|^(\S.*?)\s*(?:-+>|=+>|→|⇒|➔|➜)\s*(\S.*)$`)
	runOf      = regexp.MustCompile(`(?i)^(\S+)\s+(?:to|thru|through|until|–|—)\s+(\S+)$`)
	likeNumber = regexp.MustCompile(`^[\pL\d][\pL\d./-]*\d[\pL\d./-]*$`)
	replaces   = regexp.MustCompile(`(?i)^(\S.*?)\s*[,;:(]*\s*(?:<-+|←|(?:supersedes|supercedes|replaces|succeeds|(?:in place|instead) of|formerly|was|ex)\s)\s*(\S.*?)\)?$`)
)

// replaced reads a cell that names a part and the one in its place.
func (f Fitment) replaced(text string) (Advice, bool) {
	old, new := "", ""
	if m := replacedBy.FindStringSubmatch(text); m != nil {
		old, new = m[1]+m[3], m[2]+m[4]
	} else if m := replaces.FindStringSubmatch(text); m != nil {
		old, new = m[2], m[1]
	} else {
		return Advice{}, false
	}
	to, ok := f.exact(trimmed(new))
	from, known := f.exact(trimmed(old))
	if !ok || !known {
		return f.replacedUnknown(trimmed(old), trimmed(new))
	}
	if from.number == to.number || !f.Reads(to.text) {
		return Advice{}, false
	}
	return Advice{Write: []string{to.text}, Aside: []string{from.number},
		Says: fmt.Sprintf("is taken to say that %s has taken the place of %s; write %s, and in Parts %s under Replaced by of %s", to.number, from.number, to.text, to.number, from.number)}, true
}

// replacedUnknown reads such a cell where one of the numbers, or both, are in no sheet.
func (f Fitment) replacedUnknown(old, new string) (Advice, bool) {
	to, ok := f.exact(new)
	from, known := f.exact(old)
	switch {
	case !ok && !likeNumber.MatchString(new), !known && !likeNumber.MatchString(old):
		return Advice{}, false
	case ok && f.Reads(to.text):
		return Advice{Write: []string{to.text}, Aside: []string{old},
			Says: fmt.Sprintf("is taken to say that %s has taken the place of %s, which is not in Parts; write %s, and in References %s as a former number of %s", to.number, old, to.text, old, to.number)}, true
	case known:
		return saying(fmt.Sprintf("is taken to say that %s has taken the place of %s, and %s is not in Parts; write %s here once it is, and there %s under Replaced by of %s", new, from.number, new, new, new, from.number))
	}
	return saying(fmt.Sprintf("is taken to say that %s has taken the place of %s, and neither is in Parts; write %s here once it is, and %s in References as its former number", new, old, new, old))
}

// run reads a cell that names the first and the last of several numbers.
func (f Fitment) run(text string) (Advice, bool) {
	m := runOf.FindStringSubmatch(text)
	if m == nil || !likeNumber.MatchString(m[1]) || !likeNumber.MatchString(m[2]) {
		return Advice{}, false
	}
	_, from := f.exact(m[1])
	_, to := f.exact(m[2])
	if !from && !to {
		return Advice{}, false
	}
	return saying("is taken for all numbers from the first to the last; write each one that fits, with or between them")
}
