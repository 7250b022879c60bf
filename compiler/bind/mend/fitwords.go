package mend

import (
	"fmt"
	"regexp"
	"strings"
)

// What people write into a fitment cell in place of a part, by what it says.
var (
	marks   = phrase(`x|✓|✔|✔️|☑|•|●|■|yes|y|true|fits|fit|fitted|ok|okay|applies|included|1x?`)
	nothing = phrase(`no|n|nil|✗|✘|×|☒|0|false|nothing|n[./ ]?a|not? (?:fit|part|fits|application|applications)|not (?:fitted|applicable|used|required|needed|req'?d)|does(?: not|n't) fit|doesnt fit|n/?r`)
	refusal = phrase(`(?:no|not|never|does not|doesn't|cannot|can't) .+`)
	gone    = phrase(`nla|n\.l\.a|no longer (?:available|made|supplied|produced|in production)|discontinued|disco?|disc'?d|obsolete|obs|eol|end of life|withdrawn|superseded|deleted|dropped|out of stock|oos|sold out|unavailable|not available`)
	coming  = phrase(`tbc|tba|t\.b\.[acd]|pending|soon|coming|coming soon|wip|in progress|in development|under development|future|to follow|later|open|to ?do|to be (?:confirmed|announced|advised|determined|decided)`)
	unknown = phrase(`\?+|unknown|unk|don't know|not known|unclear|unsure|not sure|various|varies|depends|it depends`)
	sends   = phrase(`(?:see|call|contact|check|refer|consult|verify|phone|ring|e-?mail|enquire|inquire|request|confirm|measure|quote)\b.*|poa|on request|special order|special|custom|(?:by|per) (?:vin|application|order)|vin|(?:(?:main )?dealers?|factory|maker|oe|workshop|service) only|(?:available )?(?:from|through|via|by) (?:the )?(?:dealers?|maker|request|order|arrangement).*|(?:price|supplied|made|build|built|available) (?:on|to) (?:request|order)|to order|made to order`)
	repeats = phrase(`"+|'+|”+|“+|″|〃|„|,,|ditto|do|same|idem|id|same as above|as above|above|see above|as before|same as before|↑|\^|=|<|same (?:both sides|again)`)
	maker   = phrase(`std|standard|stock|oe|oem|o\.e\.m?|original|factory|default|genuine|maker's(?: own)?|(?:as )?(?:fitted|built) by the maker|as built|existing|keep|re-?use`)
	choice  = phrase(`any|all|either|both|every|\*+|universal|multiple|several|all of them|either one|any of them`)
	counts  = phrase(`(?:qty|quantity|q'ty)[ .:=]*\d+|x ?\d+|\d+ ?(?:x|off|of|pcs?|pieces?|each|ea|units?|pairs?|sets?|required|req'?d|no|nos)?|\d+ ?(?:x )?(?:per|each|a) (?:side|axle|wheel|end|vehicle|corner)|(?:one|two|three|four|six|eight)(?: (?:off|each|per (?:side|axle|wheel|end|vehicle)))?|(?:a )?pair|each side|both sides`)
	bare    = phrase(`\d{3,}`)
	broken  = phrase(`(?:\d*[.,]\d+|-\d+)(?: ?[x×].*)?`)
	yearly  = phrase(`(?:from |since |to |up to |until )?(?:19|20)\d\d ?(?:\+|on|onwards|[-–—] ?(?:(?:19|20)?\d\d)?)?|[-–—] ?(?:19|20)\d\d`)
	dated   = phrase(`\d{1,2}[-/.](?:\d{1,2}[-/.])?(?:19|20)\d\d|(?:19|20)\d\d[-/.]\d{1,2}(?:[-/.]\d{1,2})?|\d{1,2}[-/.]\d{1,2}[-/.]\d\d|q[1-4][ /-]?(?:19|20)?\d\d|(?:early |mid |late )?(?:spring|summer|autumn|fall|winter|jan\w*|feb\w*|mar|march|apr\w*|may|june?|july?|aug\w*|sept?\w*|oct\w*|nov\w*|dec\w*)[ .,-]*'?(?:\d{1,2}[ .,-]+)?(?:19|20)?\d\d|\d{1,2}[ .-]+(?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)\w*(?:[ .-]+(?:19|20)?\d\d)?`)
)

var onlyDigits = regexp.MustCompile(`\d+`)

// word reads a cell that holds words and no part.
func (f Fitment) word(text string) (Advice, bool) {
	said := strings.Join(strings.Fields(text), " ")
	switch s := folded(text); {
	case yearly.MatchString(s):
		return saying("is taken for years, which stand under Years; write here the number of the part that fits in them")
	case dated.MatchString(s):
		return f.as("is taken for a date and names no part; write %s where something will come then, or the number of the part that fits", "planned: "+said)
	case broken.MatchString(s):
		return saying(fmt.Sprintf("is no quantity: a quantity is a whole number from 1 to %d, and stands before the number of its part", f.Most))
	case counts.MatchString(s) && !bare.MatchString(s):
		n := onlyDigits.FindString(s)
		if n == "" || strings.Trim(n, "0") == "" {
			n = "the quantity"
		}
		return saying(fmt.Sprintf("is taken for a quantity and names no part; write %s x and the number of the part, or the number alone for as many as the position takes", n))
	case marks.MatchString(s):
		return saying("is taken for a mark that something fits, and does not say what; write the number of the part")
	case nothing.MatchString(s), s == "" && text != "":
		return saying("is taken to say that nothing fits; write none and the reason, which guides print")
	case gone.MatchString(s):
		return f.as("is taken to say that a part is no longer to be had, and does not say which; write its number and withdrawn under its Status in Parts, or %s where nothing belongs any more", "none: "+said)
	case coming.MatchString(s):
		return f.as("is taken to say that something is still to come; write %s, or ask and what to find out", "planned: "+said)
	case unknown.MatchString(s):
		return saying("is taken to say that nobody knows; write ask and what to find out, planned where something will come, or leave the cell blank")
	case repeats.MatchString(s):
		return saying("is taken to repeat another cell, and each cell is read by itself; write here what that cell says")
	case maker.MatchString(s):
		return f.as("is taken for the maker's own part; write its number where Parts has it, or %s where nothing of yours belongs", "none: "+said)
	case choice.MatchString(s):
		return saying("does not say which parts; write their numbers, with or between those of a choice and + between those that are fitted together")
	case sends.MatchString(s):
		return f.as("is taken to send the reader elsewhere; write %s and go on with what to measure or whom to ask, or write the number of the part and put the words into a column of notes", "ask: "+said)
	case refusal.MatchString(s):
		return f.as("is taken to say that nothing fits; write %s, or the number of the part that does", "none: "+said)
	}
	return Advice{}, false
}

// as is advice that names one cell to write, if that cell reads.
func (f Fitment) as(says, write string) (Advice, bool) {
	if !f.Reads(write) {
		return Advice{}, false
	}
	return Advice{Says: fmt.Sprintf(says, quoted([]string{write}, "")), Write: []string{write}}, true
}
