package grammar

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
)

// MaxQuantity bounds what a cell may order: more is a slip of the hand.
const MaxQuantity = 9999

// Choice is what a cell offers between two `or`: parts that are fitted together.
type Choice struct {
	Fault string // not "": a sentence that says why it cannot be read
	Items []Readings[Item]
}

// Item is a part with its quantity.
type Item struct {
	Fault    string // not "": a sentence that says why it cannot be read
	Quantity int    // 0 where it says none
	Number   string
}

var (
	quantity = regexp.MustCompile(`(?s)^(\d+)[\s\p{Z}]*[xX×][\s\p{Z}]+(.+)$`)
	loneDash = regexp.MustCompile(`^[-\x{2010}-\x{2015}\x{2212}]+$`)
)

// Dash tells whether a text is a hyphen, a dash or several.
func Dash(text string) bool { return loneDash.MatchString(text) }

// Uncounted gives the number behind a quantity; false where the text has none.
func Uncounted(text string) (number string, ok bool) {
	_, number, ok = counted(text)
	return number, ok
}

func counted(text string) (digits, number string, ok bool) {
	m := quantity.FindStringSubmatch(text)
	if m == nil {
		return "", text, false
	}
	return m[1], m[2], true
}

// Severed gives the pieces of a text at everything that parts numbers in a fitment cell or
// a list.
func Severed(text string) []string {
	return strings.FieldsFunc(orWord.ReplaceAllString(text, "\n"), func(r rune) bool { return Separator(r) || r == '+' })
}

// alone is the choice of a number by itself.
func alone(number string) Readings[Choice] {
	return Readings[Choice]{{As: Choice{Items: []Readings[Item]{{{As: Item{Number: number}}}}}}}
}

// readChoices reads what `or` parts.
func readChoices(whole string) []Readings[Choice] {
	var out []Readings[Choice]
	for text := range strings.SplitSeq(orWord.ReplaceAllString(" "+whole+" ", "\n"), "\n") {
		out = append(out, readChoice(strings.TrimSpace(text), whole))
	}
	return out
}

// readChoice reads items joined by +. The whole of it may be one number, whatever it holds.
func readChoice(text, whole string) Readings[Choice] {
	if _, again := cutWord(text, "or"); text == "" || again || strings.EqualFold(text, "or") {
		return Readings[Choice]{{As: Choice{Fault: fmt.Sprintf("%q has nothing on one side of or; write a part on each side", whole)}}}
	}
	var items []Readings[Item]
	for said := range strings.SplitSeq(text, "+") {
		items = append(items, readItem(spaced(said), whole))
	}
	out := alone(text)
	if len(items) == 1 && len(items[0]) == 1 && items[0][0].As.Number == text {
		return out
	}
	out[0].If = text
	return append(out, Reading[Choice]{As: Choice{Items: items}})
}

// readItem reads one part with its quantity.
func readItem(text, cell string) Readings[Item] {
	fault := func(why string) Reading[Item] {
		return Reading[Item]{As: Item{Fault: fmt.Sprintf("%q: %s", cell, why)}}
	}
	switch {
	case text == "":
		return Readings[Item]{fault("nothing stands on one side of +; write a part on each side")}
	case Dash(text):
		return Readings[Item]{fault("a dash is no part")}
	}
	name := Reading[Item]{If: text, As: Item{Number: text}}
	digits, number, ok := counted(text)
	n, err := strconv.Atoi(digits)
	why := misplaced(number)
	switch {
	case ok && (err != nil || n < 1 || n > MaxQuantity):
		return Readings[Item]{name, fault(fmt.Sprintf("a quantity is a whole number from 1 to %d, not %s", MaxQuantity, digits))}
	case ok && why != "":
		return Readings[Item]{name, {If: number, As: Item{Quantity: n, Number: number}}, fault(why)}
	case ok:
		return Readings[Item]{name, {As: Item{Quantity: n, Number: number}}}
	case why != "":
		return Readings[Item]{name, fault(why)}
	}
	return Readings[Item]{{As: Item{Number: text}}}
}

// misplaced says why a word cannot stand among parts.
func misplaced(text string) string {
	if m := keyword.FindStringSubmatch(text); m != nil {
		return fmt.Sprintf("%s stands alone in its cell and cannot be one of several", strings.ToLower(m[1]))
	}
	if withWord.MatchString(text) {
		return "with and a position stand alone in their cell and cannot be one of several"
	}
	return ""
}

// String writes the parts as they stand between two `or`; "" where they cannot be read.
func (c Choice) String() string {
	if c.Fault != "" {
		return ""
	}
	said := make([]string, len(c.Items))
	for i, item := range c.Items {
		said[i] = item[0].As.String() // the whole of it as one number
	}
	return strings.Join(said, " + ")
}

// String writes the item as it stands between two +.
func (i Item) String() string {
	if i.Quantity == 0 {
		return i.Number
	}
	return fmt.Sprintf("%d x %s", i.Quantity, i.Number)
}
