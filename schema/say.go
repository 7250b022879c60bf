package schema

import (
	"encoding/json"
	"fmt"
	"net/url"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"github.com/santhosh-tekuri/jsonschema/v5"
)

// broken is a rule that a row breaks, with its value and the schema it stands in.
type broken struct {
	e      *jsonschema.ValidationError
	at     string // the keyword
	value  any
	parent map[string]any
	row    Row
}

// say makes violations of one error of the library: usually one, but one for each
// column that is blank or too many.
func (r *rules) say(e *jsonschema.ValidationError, row Row) []Violation {
	b := broken{e: e, at: keyword(e), row: row}
	b.value, b.parent = r.find(e.AbsoluteKeywordLocation)
	switch since, blanks := b.blanks(r); {
	case len(blanks) > 0:
		return b.each(blanks, func(name string) string { return b.blank(name, since) })
	case b.at == "additionalProperties" && e.InstanceLocation == "":
		return b.each(b.further(), func(name string) string { return "the schema allows no column " + name })
	case strings.Contains(e.KeywordLocation, "/propertyNames"):
		return b.each([]string{field(e)}, func(name string) string {
			return fmt.Sprintf("the column's name %s is not one that the schema allows", shown(name))
		})
	}
	return b.each([]string{field(e)}, b.sentence)
}

func (b *broken) each(names []string, say func(string) string) []Violation {
	out := make([]Violation, len(names))
	for i, name := range names {
		out[i] = Violation{name, b.e.KeywordLocation, say(name)}
	}
	return out
}

// field gives the column that an error is about, "" where it is about the row.
func field(e *jsonschema.ValidationError) string {
	return unescape(strings.TrimPrefix(e.InstanceLocation, "/"))
}

// blanks gives the columns that a rule wants filled and the row leaves blank, and the
// column that makes it want them, if one does. The library names one column of
// dependentRequired at a time.
func (b *broken) blanks(r *rules) (since string, blanks []string) {
	var wanted []any
	if b.at == "required" {
		wanted, _ = b.value.([]any)
	} else if at := parts(b.e.KeywordLocation); len(at) > 2 && at[len(at)-3] == "dependentRequired" {
		wanted, since = []any{b.value}, at[len(at)-2]
		_, b.parent = r.find(b.e.AbsoluteKeywordLocation[:strings.LastIndex(b.e.AbsoluteKeywordLocation, "/dependentRequired/")] + "/dependentRequired")
	}
	for _, name := range wanted {
		if name, ok := name.(string); ok && !slices.Contains(blanks, name) && valueOf(b.row, name) == nil {
			blanks = append(blanks, name)
		}
	}
	return since, blanks
}

func valueOf(row Row, field string) any {
	for _, f := range row.Fields {
		if f.Name == field {
			return f.Value
		}
	}
	return nil
}

// further gives the row's columns that the schema does not name.
func (b *broken) further() []string {
	allowed, _ := b.parent["properties"].(map[string]any)
	patterns, _ := b.parent["patternProperties"].(map[string]any)
	var out []string
	for _, f := range b.row.Fields {
		if _, ok := allowed[f.Name]; !ok && !matchesAny(patterns, f.Name) {
			out = append(out, f.Name)
		}
	}
	return out
}

func matchesAny(patterns map[string]any, name string) bool {
	for p := range patterns {
		if re, err := regexp.Compile(p); err == nil && re.MatchString(name) {
			return true
		}
	}
	return false
}

// find gives the value at an absolute keyword location, and the schema it stands in.
func (r *rules) find(location string) (any, map[string]any) {
	address, pointer, _ := strings.Cut(location, "#")
	at := r.docs[address]
	parent, _ := at.(map[string]any)
	for _, token := range parts(pointer) {
		switch v := at.(type) {
		case map[string]any:
			parent, at = v, v[token]
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

// parts gives the tokens of a JSON Pointer.
func parts(pointer string) []string {
	pointer = strings.TrimPrefix(pointer, "/")
	if pointer == "" {
		return nil
	}
	out := strings.Split(pointer, "/")
	for i := range out {
		out[i] = unescape(out[i])
	}
	return out
}

// unescape undoes what the library does to a token of a JSON Pointer in a URL.
func unescape(token string) string {
	if s, err := url.PathUnescape(token); err == nil {
		token = s
	}
	return strings.ReplaceAll(strings.ReplaceAll(token, "~1", "/"), "~0", "~")
}

// maxShown bounds what a sentence quotes, in characters.
const maxShown = 80

// shown gives a value as a sentence quotes it.
func shown(v any) string {
	text, ok := v.(string)
	if !ok {
		return plain(v)
	}
	if r := []rune(text); len(r) > maxShown {
		text = string(r[:maxShown]) + "…"
	}
	return strconv.Quote(text)
}

// plain gives a value as the workbook shows it.
func plain(v any) string {
	switch v := v.(type) {
	case nil:
		return "blank"
	case string:
		return v
	case bool:
		return strings.ToUpper(strconv.FormatBool(v))
	case float64:
		if text := strconv.FormatFloat(v, 'f', -1, 64); len(text) <= 20 {
			return text
		}
		return strconv.FormatFloat(v, 'g', -1, 64)
	case json.Number:
		return v.String()
	}
	return fmt.Sprint(v)
}
