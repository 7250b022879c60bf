package schema

import (
	"encoding/json"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// drawCell makes a schema for a cell.
func drawCell(t *rapid.T, depth int) any {
	simple := []string{`{}`, `true`, `false`, `{"type":"string"}`, `{"type":["string","number"]}`, `{"type":"integer"}`, `{"type":["integer","string","boolean"]}`,
		`{"type":"boolean"}`, `{"type":["null","number"]}`, `{"enum":["current","red",1]}`, `{"enum":["current"],"x-fold":true}`, `{"const":1}`, `{"const":"red"}`, `{"const":true}`,
		`{"pattern":"^[a-z]+$"}`, `{"minimum":0,"maximum":1.5}`, `{"exclusiveMinimum":0}`, `{"multipleOf":0.5}`, `{"minLength":2}`, `{"maxLength":3}`, `{"format":"date"}`,
		`{"required":["a"],"minProperties":5}`, `{"$ref":"#/$defs/cell"}`}
	n := rapid.IntRange(0, len(simple)+5*depth-1).Draw(t, "cell")
	if n < len(simple) {
		return json.RawMessage(simple[n])
	}
	below := func() any { return drawCell(t, depth-1) }
	switch (n - len(simple)) % 5 {
	case 0:
		return map[string]any{"not": below()}
	case 1:
		return map[string]any{"anyOf": []any{below(), below()}}
	case 2:
		return map[string]any{"oneOf": []any{below(), below()}}
	case 3:
		return map[string]any{"allOf": []any{below(), below()}, "x-fold": true}
	}
	return map[string]any{"if": below(), "then": below(), "else": below()}
}

// drawRow makes a schema for a row.
func drawRow(t *rapid.T, names []string, depth int) any {
	name := rapid.SampledFrom(append([]string{"no such column"}, names...))
	some := func(label string) []string { return rapid.SliceOfN(name, 1, 3).Draw(t, label) }
	uniq := func(label string) []string {
		return rapid.SliceOfNDistinct(name, 1, 3, rapid.ID[string]).Draw(t, label)
	}
	cells := func(label string) any {
		out := map[string]any{}
		for _, n := range some(label) {
			out[n] = drawCell(t, 2)
		}
		return out
	}
	below := func() any { return drawRow(t, names, depth-1) }
	keywords := []struct {
		name string
		draw func() any
	}{
		{"properties", func() any { return cells("properties") }},
		{"properties", func() any { return cells("properties") }},
		{"required", func() any { return uniq("required") }},
		{"dependentRequired", func() any { return map[string]any{name.Draw(t, "since"): uniq("wanted")} }},
		{"additionalProperties", func() any { return drawCell(t, 1) }},
		{"type", func() any {
			return rapid.SampledFrom([]any{"object", []any{"string", "object"}, "string"}).Draw(t, "type")
		}},
		{"$ref", func() any { return "#/$defs/row" }},
		{"patternProperties", func() any { return map[string]any{"^[CPm]": drawCell(t, 1)} }},
		{"propertyNames", func() any { return map[string]any{"maxLength": rapid.IntRange(3, 20).Draw(t, "name")} }},
		{"minProperties", func() any { return rapid.IntRange(0, 6).Draw(t, "least") }},
		{"maxProperties", func() any { return rapid.IntRange(0, 6).Draw(t, "most") }},
		{"unevaluatedProperties", func() any { return drawCell(t, 1) }},
		{"const", func() any { return map[string]any{name.Draw(t, "const"): "red"} }},
		{"allOf", func() any { return []any{below(), below()} }},
		{"anyOf", func() any { return []any{below(), below()} }},
		{"oneOf", func() any { return []any{below(), below()} }},
		{"not", func() any { return below() }},
		{"if", func() any { return below() }},
		{"then", func() any { return below() }},
		{"else", func() any { return below() }},
		{"dependentSchemas", func() any { return map[string]any{name.Draw(t, "since"): below()} }},
	}
	most := len(keywords) - 1
	if depth == 0 {
		most = 12
	}
	if rapid.Bool().Draw(t, "plain") {
		most = 6 // otherwise nearly all would have to be seen whole
	}
	if rapid.IntRange(0, 15).Draw(t, "word") == 0 {
		return rapid.Bool().Draw(t, "always")
	}
	out := map[string]any{}
	for range rapid.IntRange(0, 4).Draw(t, "keywords") {
		k := keywords[rapid.IntRange(0, most).Draw(t, "keyword")]
		out[k.name] = k.draw()
	}
	return out
}

// drawValue makes a cell, nil for a blank one.
func drawValue(t *rapid.T) any {
	return rapid.SampledFrom([]any{nil, nil, "", "red", "current", " Current ", "1", "Years", "units", "2027-01-01", "damper", 0.0, 1.0, 1.5, 2.0, -3.25, 1e300,
		true, false, math.NaN(), math.Inf(-1), math.Copysign(0, -1), "\xff"}).Draw(t, "value")
}

// With verdicts and without, the violations of any rows are the same, whatever stricter
// schema a catalogue brings.
func TestVerdictsChangeNothing(t *testing.T) {
	ours := plainSet(t)
	var seen struct{ plain, whole, good, bad int }
	rapid.Check(t, func(t *rapid.T) {
		kind := rapid.SampledFrom([]string{"parts", "settings", "traits", "limits", "kits", "fitment"}).Draw(t, "kind")
		names := []string{"Colour", "x/~ %y", "Mass"}
		for _, c := range Columns(kind)[:min(4, len(Columns(kind)))] {
			names = append(names, c.Name)
		}
		top, ok := drawRow(t, names, 2).(map[string]any)
		if !ok {
			top = map[string]any{}
		}
		top["$defs"] = map[string]any{"cell": json.RawMessage(`{"type":["string","integer"],"maxLength":4}`), "row": json.RawMessage(`{"anyOf":[{"required":["Colour"]},{"properties":{"Mass":{"type":"number"}}}]}`)}
		data, err := json.Marshal(top)
		if err != nil {
			t.Fatal(err)
		}
		base := ours
		if rapid.Bool().Draw(t, "alone") {
			base = &Set{kinds: map[string][]*rules{}}
		}
		s, problems := base.with(kind, string(data))
		if len(problems) > 0 {
			t.Fatalf("%s: %v", data, problems)
		}
		v := s.Validator(kind, names)
		ids := map[string]int32{}
		seen.plain, seen.whole = seen.plain+len(v.plain), seen.whole+len(v.whole)
		for range rapid.IntRange(1, 12).Draw(t, "rows") {
			cells := make([]any, len(names))
			for i := range cells {
				cells[i] = drawValue(t)
			}
			want := s.Validate(kind, fields(names, cells))
			if len(want) == 0 {
				seen.good++
			} else {
				seen.bad++
			}
			if good := v.good(values(cells...)); good != (len(want) == 0) {
				t.Fatalf("%s: %v is good: %v, and breaks %v", data, cells, good, want)
			}
			for _, row := range [][]Value{values(cells...), sharing(ids, cells...)} {
				if got := v.Validate(row); !assert.ObjectsAreEqual(want, got) {
					t.Fatalf("%s: %v breaks %v, not %v", data, cells, want, got)
				}
			}
		}
	})
	t.Logf("%+v", seen)
	for _, n := range []int{seen.plain, seen.whole, seen.good, seen.bad} {
		assert.Greater(t, n, 2, "%+v", seen)
	}
}

func FuzzVerdicts(f *testing.F) {
	for _, s := range []string{`{}`, `false`, `{"required":["Part","Name"]}`, `{"properties":{"Part":{"type":"integer"},"Coated":{"const":true}},"additionalProperties":false}`,
		`{"if":{"properties":{"Part":{"type":"string"}},"required":["Part"]},"then":{"dependentRequired":{"Part":["Colour"]}},"else":{"not":{}}}`,
		`{"oneOf":[{"$ref":"#/$defs/a"},{"minProperties":2}],"$defs":{"a":{"additionalProperties":{"format":"date"}}}}`,
		`{"unevaluatedProperties":{"type":"string"},"anyOf":[{"properties":{"Part":true}}]}`,
		`{"properties":{"Part":{"$ref":"https://json-schema.org/draft/2020-12/schema"}}}`} {
		f.Add([]byte(s), "ZZ-1", 5.5, true)
		f.Add([]byte(s), "", math.Inf(1), false)
	}
	none := &Set{kinds: map[string][]*rules{}}
	names := []string{"Part", "Colour", "Coated", "x/~ %y"}
	f.Fuzz(func(t *testing.T, data []byte, text string, number float64, truth bool) {
		s, _ := none.with("parts", string(data))
		v := s.Validator("parts", names)
		for _, cells := range [][]any{{text, number, truth, nil}, {number, truth, text, text}, {truth, nil, number, "x"}, {text, nil, nil, number}, {nil, nil, nil, nil}} {
			want := s.Validate("parts", fields(names, cells))
			for range 2 {
				require.Equal(t, want, v.Validate(values(cells...)), "%s %v", data, cells)
			}
		}
	})
}
