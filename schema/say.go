package schema

import (
	"encoding/json"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/santhosh-tekuri/jsonschema/v5"

	"ferrule/schema/word"
)

// say makes sentences of one broken rule: usually one, but one for each column that
// is missing.
func (r *rules) say(e *jsonschema.ValidationError, row Row) []Violation {
	rule := rule{e: e, at: keyword(e)}
	rule.value, rule.parent = r.find(e.AbsoluteKeywordLocation)
	if blanks := rule.blanks(row); len(blanks) > 0 {
		var out []Violation
		for _, name := range blanks {
			out = append(out, Violation{name, e.KeywordLocation, name + " is blank; fill it" + rule.expects(" with ")})
		}
		return out
	}
	field := unescape(strings.TrimPrefix(e.InstanceLocation, "/"))
	v := Violation{Field: field, Rule: e.KeywordLocation}
	v.Message = rule.sentence(field, valueOf(row, field), row)
	return []Violation{v}
}

// rule is a broken keyword with its value and the schema it stands in.
type rule struct {
	e      *jsonschema.ValidationError
	at     string
	value  any
	parent map[string]any
}

func (r *rule) text(key string) string { s, _ := r.parent[key].(string); return s }

// expects gives what the schema's author says is wanted.
func (r *rule) expects(before string) string {
	if d := r.text("description"); d != "" && r.at != "required" {
		return before + d
	}
	return ""
}

// blanks gives the columns that a rule wants filled and the row leaves blank.
func (r *rule) blanks(row Row) []string {
	if r.at != "required" && !strings.Contains(r.e.KeywordLocation, "/dependentRequired/") {
		return nil
	}
	list, _ := r.value.([]any)
	var out []string
	for _, name := range list {
		if name, ok := name.(string); ok && valueOf(row, name) == nil {
			out = append(out, name)
		}
	}
	return out
}

func valueOf(row Row, field string) any {
	for _, f := range row.Fields {
		if f.Name == field {
			return f.Value
		}
	}
	return nil
}

// sentence says what stands there and what may.
func (r *rule) sentence(field string, value any, row Row) string {
	if say := r.text("x-say-" + r.at); say != "" {
		return say
	}
	if say := r.text("x-say"); say != "" {
		return say
	}
	is := field + " is " + shown(value)
	if field == "" {
		is = "the row"
	}
	switch r.at {
	case "enum":
		return is + "; " + r.oneOf(value)
	case "const":
		return fmt.Sprintf("%s; write %s", is, shown(r.value))
	case "type":
		return r.wrongType(field, value)
	case "minimum", "maximum", "exclusiveMinimum", "exclusiveMaximum":
		return is + "; " + r.bounds()
	case "multipleOf":
		return fmt.Sprintf("%s; write a multiple of %s", is, shown(r.value))
	case "pattern":
		return is + r.or("; write "+r.text("description"), fmt.Sprintf("; it must look like %s", shown(r.value)))
	case "format":
		return is + r.or("; write "+r.text("description"), fmt.Sprintf("; write a %s", shown(r.value)))
	case "minLength":
		return fmt.Sprintf("%s; write at least %s characters", is, shown(r.value))
	case "maxLength":
		return fmt.Sprintf("%s; write at most %s characters", is, shown(r.value))
	case "anyOf", "oneOf", "not":
		return is + r.or(" is not as its schema wants it: "+r.text("description"), " is none of what its schema allows")
	case "additionalProperties", "unevaluatedProperties":
		return "the schema allows no further columns, and the row has " + strings.Join(r.further(row), ", ")
	case "false":
		return is + "; it must be blank here"
	}
	return fmt.Sprintf("%s, which breaks the rule %s of its schema: %s", is, r.at, r.e.Message)
}

func (r *rule) or(described, plain string) string {
	if r.text("description") != "" {
		return described
	}
	return plain
}

// oneOf lists what is allowed, with the nearest to what is there.
func (r *rule) oneOf(value any) string {
	list, _ := r.value.([]any)
	words := make([]string, len(list))
	for i, w := range list {
		words[i] = plain(w)
	}
	near := ""
	if text, ok := value.(string); ok {
		near = word.DidYouMean(text, words)
	}
	if len(words) == 1 {
		return "write " + words[0] + near
	}
	if len(words) > 12 {
		return fmt.Sprintf("write one of %s or %d others%s", strings.Join(words[:12], ", "), len(words)-12, near)
	}
	last := len(words) - 1
	return "write " + strings.Join(words[:last], ", ") + " or " + words[last] + near
}

// wrongType says what kind of value belongs there.
func (r *rule) wrongType(field string, value any) string {
	want := typeWords(r.value)
	if text, ok := value.(string); ok && want != "text" {
		if _, err := strconv.ParseFloat(strings.TrimSpace(text), 64); err == nil {
			return fmt.Sprintf("%s is the text %q; set the cell's format to general or number and type it as a number", field, text)
		}
	}
	if d := r.text("description"); d != "" {
		want = d
	}
	return fmt.Sprintf("%s is %s; write %s", field, shown(value), want)
}

func typeWords(v any) string {
	names := map[string]string{"integer": "a whole number", "number": "a number", "string": "text", "boolean": "true or false"}
	if one, ok := v.(string); ok {
		return names[one]
	}
	list, _ := v.([]any)
	var out []string
	for _, t := range list {
		if n := names[plain(t)]; n != "" && !slices.Contains(out, n) {
			out = append(out, n)
		}
	}
	return strings.Join(out, " or ")
}

// bounds says a range, both ends where both are there.
func (r *rule) bounds() string {
	low, hasLow := r.parent["minimum"]
	high, hasHigh := r.parent["maximum"]
	switch {
	case r.at == "exclusiveMinimum":
		return "write more than " + plain(r.value)
	case r.at == "exclusiveMaximum":
		return "write less than " + plain(r.value)
	case hasLow && hasHigh:
		return fmt.Sprintf("write a number from %s to %s", plain(low), plain(high))
	case hasLow:
		return fmt.Sprintf("write %s or more", plain(low))
	}
	return fmt.Sprintf("write %s or less", plain(high))
}

func (r *rule) further(row Row) []string {
	allowed, _ := r.parent["properties"].(map[string]any)
	var out []string
	for _, f := range row.Fields {
		if _, ok := allowed[f.Name]; !ok {
			out = append(out, f.Name)
		}
	}
	return out
}

// shown gives a value as a sentence quotes it.
func shown(v any) string {
	switch v := v.(type) {
	case string:
		if r := []rune(v); len(r) > 80 {
			v = string(r[:80]) + "…"
		}
		return strconv.Quote(v)
	case nil:
		return "blank"
	}
	return plain(v)
}

func plain(v any) string {
	switch v := v.(type) {
	case string:
		return v
	case float64:
		return strconv.FormatFloat(v, 'f', -1, 64)
	case json.Number:
		return v.String()
	}
	return fmt.Sprint(v)
}

// find gives the value at an absolute keyword location, and the schema it stands in.
func (r *rules) find(location string) (any, map[string]any) {
	address, pointer, _ := strings.Cut(location, "#")
	var at any = r.docs[address]
	var parent map[string]any
	for _, token := range strings.Split(strings.Trim(pointer, "/"), "/") {
		switch v := at.(type) {
		case map[string]any:
			parent, at = v, v[unescape(token)]
		case []any:
			i, err := strconv.Atoi(token)
			if err != nil || i < 0 || i >= len(v) {
				return nil, parent
			}
			at = v[i]
		default:
			return nil, parent
		}
	}
	return at, parent
}

func unescape(token string) string {
	token = strings.ReplaceAll(strings.ReplaceAll(token, "~1", "/"), "~0", "~")
	if !strings.Contains(token, "%") {
		return token
	}
	if s, err := urlUnescape(token); err == nil {
		return s
	}
	return token
}
