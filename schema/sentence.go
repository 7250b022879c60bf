package schema

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"ferrule/schema/word"
)

// sentence says what stands in a column, or in the row, and what may.
func (b *broken) sentence(field string) string {
	for _, key := range []string{"x-say-" + b.at, "x-say"} {
		if say := text(b.parent, key); say != "" {
			return say
		}
	}
	if field == "" && !strings.HasSuffix(b.at, "Properties") {
		return b.wholeRow()
	}
	value := valueOf(b.row, field)
	is := field + " is " + shown(value)
	want := "; write " + wanted(b.parent)
	switch b.at {
	case "enum":
		return is + "; write " + b.oneOf(value)
	case "const":
		return is + "; write " + shown(b.value)
	case "type":
		return b.wrongType(field, value)
	case "minimum", "maximum", "exclusiveMinimum", "exclusiveMaximum":
		return is + want
	case "multipleOf":
		return is + "; write a multiple of " + plain(b.value)
	case "minLength":
		return is + "; write at least " + count(b.value, "character")
	case "maxLength":
		return is + "; write at most " + count(b.value, "character")
	case "minProperties":
		return fmt.Sprintf("the row has %s filled; fill at least %s", count(len(b.row.Fields), "cell"), plain(b.value))
	case "maxProperties":
		return fmt.Sprintf("the row has %s filled; fill at most %s", count(len(b.row.Fields), "cell"), plain(b.value))
	}
	if text(b.parent, "description") != "" {
		return is + want
	}
	return is + b.plainly()
}

// wholeRow says that a row as a whole breaks a rule.
func (b *broken) wholeRow() string {
	switch {
	case b.at == "anyOf" || b.at == "oneOf":
		return "the row does not meet " + ofThose(b.at) + " that its schema allows"
	case b.at == "not" || b.e.Message == notAllowed:
		return "its schema allows no such row"
	}
	return "the row breaks a rule of its schema: " + b.e.Message
}

// notAllowed is what the library says where a schema is the word false.
const notAllowed = "not allowed"

func ofThose(keyword string) string {
	if keyword == "oneOf" {
		return "exactly one of the forms"
	}
	return "any of the forms"
}

// plainly says a rule without anyone's description to help.
func (b *broken) plainly() string {
	switch b.at {
	case "pattern":
		return "; write text of the pattern " + plain(b.value)
	case "format":
		return "; write text of the format " + plain(b.value)
	case "anyOf", "oneOf":
		return ", which does not meet " + ofThose(b.at) + " that its schema allows"
	case "not":
		return ", which its schema rules out"
	}
	if b.e.Message == notAllowed {
		return "; clear the cell, since its schema allows nothing there"
	}
	return fmt.Sprintf(", which breaks the rule %s of its schema: %s", b.at, b.e.Message)
}

// blank says that a column is to be filled, and with what.
func (b *broken) blank(name, since string) string {
	properties, _ := b.parent["properties"].(map[string]any)
	property, _ := properties[name].(map[string]any)
	say := name + " is blank; "
	if want := specific(property); want != "" {
		say += "write " + want
	} else {
		say += "fill it"
	}
	if since != "" {
		say += ", since " + since + " is filled"
	}
	return say
}

// wanted says in words what a schema allows.
func wanted(schema map[string]any) string {
	if want := specific(schema); want != "" {
		return want
	}
	return typeWords(schema["type"])
}

// specific is wanted, but "" where the schema says little: any text, number or both.
func specific(schema map[string]any) string {
	if d := text(schema, "description"); d != "" {
		return d
	}
	if list, ok := schema["enum"].([]any); ok {
		return alternatives(list)
	}
	noun := "a number"
	if schema["type"] == "integer" {
		noun = "a whole number"
	}
	if r := rangeWords(schema); r != "" {
		return noun + r
	}
	if schema["type"] == "integer" || schema["type"] == "number" {
		return noun
	}
	return ""
}

// rangeWords says the bounds of a number, both where both are there.
func rangeWords(schema map[string]any) string {
	low, high := schema["minimum"], schema["maximum"]
	above, below := schema["exclusiveMinimum"], schema["exclusiveMaximum"]
	var out []string
	switch {
	case low != nil && high != nil:
		out = append(out, "from "+plain(low)+" to "+plain(high))
	case low != nil:
		out = append(out, "of at least "+plain(low))
	case high != nil:
		out = append(out, "of at most "+plain(high))
	}
	if above != nil {
		out = append(out, "more than "+plain(above))
	}
	if below != nil {
		out = append(out, "less than "+plain(below))
	}
	if len(out) == 0 {
		return ""
	}
	return " " + strings.Join(out, " and ")
}

// listed is how many alternatives a sentence names.
const listed = 12

func alternatives(list []any) string {
	words := make([]string, len(list))
	for i, w := range list {
		words[i] = plain(w)
	}
	switch n := len(words); {
	case n > listed:
		return fmt.Sprintf("one of %s or %d others", strings.Join(words[:listed], ", "), n-listed)
	case n > 1:
		return strings.Join(words[:n-1], ", ") + " or " + words[n-1]
	}
	return strings.Join(words, "")
}

// oneOf lists what is allowed, with the nearest to what is there.
func (b *broken) oneOf(value any) string {
	list, _ := b.value.([]any)
	is, ok := value.(string)
	if !ok {
		return alternatives(list)
	}
	var words []string
	for _, w := range list {
		words = append(words, plain(w))
	}
	return alternatives(list) + near(is, words)
}

func near(name string, names []string) string { return word.DidYouMean(name, names) }

// numeral finds text that a spreadsheet could hold as a number.
var numeral = regexp.MustCompile(`^[-+]?([0-9]+([.,][0-9]*)?|[.,][0-9]+)$`)

// integral finds text that a spreadsheet could hold as a whole number.
var integral = regexp.MustCompile(`^[-+]?[0-9]+([.,]0*)?$`)

// wrongType says what kind of value belongs there.
func (b *broken) wrongType(field string, value any) string {
	types := namesOf(b.value)
	is, isText := value.(string)
	switch {
	case isText && (slices.Contains(types, "number") && numeral.MatchString(is) || slices.Contains(types, "integer") && integral.MatchString(is)):
		return fmt.Sprintf("%s is the text %q; set the cell's format to General and type the number again", field, is)
	case !isText && text(b.parent, "description") == "" && slices.Equal(types, []string{"string"}):
		return fmt.Sprintf("%s is %s and not text; set the cell's format to Text and type it again", field, shown(value))
	}
	return field + " is " + shown(value) + "; write " + wanted(b.parent)
}

func typeWords(v any) string {
	words := map[string]string{"integer": "a whole number", "number": "a number", "string": "text", "boolean": "TRUE or FALSE"}
	var out []any
	for _, t := range namesOf(v) {
		if w := words[t]; w != "" {
			out = append(out, w)
		}
	}
	if len(out) == 0 {
		return "what its schema allows"
	}
	return alternatives(out)
}

// namesOf gives the names in a type, which is one or a list of them.
func namesOf(v any) []string {
	if one, ok := v.(string); ok {
		return []string{one}
	}
	list, _ := v.([]any)
	out := make([]string, len(list))
	for i, t := range list {
		out[i] = plain(t)
	}
	return out
}

func text(schema map[string]any, key string) string { s, _ := schema[key].(string); return s }

func count(n any, noun string) string {
	if plain(n) == "1" {
		return "1 " + noun
	}
	return plain(n) + " " + noun + "s"
}
