package schema

import (
	"fmt"
	"maps"
	"math"
	"math/big"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v5"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// values makes the values of a row from what Fields hold; nil is a blank cell.
func values(cells ...any) []Value {
	out := make([]Value, len(cells))
	for i, c := range cells {
		switch c := c.(type) {
		case string:
			out[i] = Text(c)
		case float64:
			out[i] = Number(c)
		case bool:
			out[i] = Bool(c)
		}
	}
	return out
}

// sharing is values with texts that say which they are: equal ones by the same number,
// and all of them in the same place of what columns remember.
func sharing(ids map[string]int32, cells ...any) []Value {
	out := values(cells...)
	for i, v := range out {
		if v.form != isText {
			continue
		}
		if _, met := ids[v.text]; !met {
			ids[v.text] = int32(1 + remembered*len(ids))
		}
		out[i] = Shared(v.text, ids[v.text])
	}
	return out
}

// fields makes the row that a validator is given.
func fields(names []string, cells []any) Row {
	var r Row
	for i, c := range cells {
		if c != nil {
			r.Fields = append(r.Fields, Field{names[i], c})
		}
	}
	return r
}

// with gives the set with a catalogue's schema for one kind beside ours.
func (s *Set) with(kind, schema string) (*Set, []Problem) {
	out := &Set{kinds: maps.Clone(s.kinds)}
	out.kinds[kind] = slices.Clip(out.kinds[kind])
	return out, out.extend([]Extra{{kind + ".schema.json", []byte(schema)}})
}

// Our own schemas are all decided cell by cell, so that no sheet is slow for us.
func TestOursArePlain(t *testing.T) {
	s := plainSet(t)
	for _, kind := range Kinds() {
		var names []string
		for _, c := range Columns(kind) {
			names = append(names, c.Name)
		}
		v := s.Validator(kind, append(names, "Colour"))
		assert.Len(t, v.plain, 1, kind)
		assert.Empty(t, v.whole, kind)
	}
}

func TestWhichSchemasArePlain(t *testing.T) {
	tests := []struct {
		schema string
		plain  bool
	}{
		{`{}`, true},
		{`true`, true},
		{`false`, true},
		{`{"title":"t","description":"d","$comment":"c","x-say":"s"}`, true},
		{`{"type":["object","null"],"properties":{"Part":{"pattern":"^A"}},"required":["Part"],"additionalProperties":false}`, true},
		{`{"dependentRequired":{"Part":["Name"]}}`, true},
		{`{"allOf":[{"$ref":"#/$defs/a"}],"$defs":{"a":{"properties":{"Part":{"$ref":"#/$defs/b"}}},"b":{"format":"date"}}}`, true},
		{`{"anyOf":[{"required":["Name"]},{"not":{"required":["Part"]}}]}`, true},
		{`{"if":{"properties":{"Part":{"const":"A"}}},"then":{"required":["Name"]},"else":{"oneOf":[{"required":["Name"]}]}}`, true},
		{`{"properties":{"Part":{"if":{"type":"string"},"then":{"minLength":3},"unevaluatedProperties":false}}}`, true},
		{`{"oneOf":[{"required":["Name"]},{"required":["Colour"]},{"properties":{"Part":{"const":true}}}]}`, true},
		{`{"properties":{"Colour":{"type":["integer","string"]}}}`, true},
		{`{"not":{"properties":{"Colour":{"type":"integer"}},"required":["Colour"]}}`, true},
		{`{"patternProperties":{"^P":{"type":"string"}}}`, false},
		{`{"propertyNames":{"maxLength":5}}`, false},
		{`{"minProperties":2}`, false},
		{`{"maxProperties":2}`, false},
		{`{"unevaluatedProperties":false}`, false},
		{`{"unevaluatedProperties":true}`, false},
		{`{"allOf":[{"unevaluatedProperties":false}]}`, false},
		{`{"$ref":"#/$defs/a","$defs":{"a":{"minProperties":1}}}`, false},
		{`{"not":{"propertyNames":{"maxLength":5}}}`, false},
		{`{"if":{"maxProperties":2},"then":false}`, false},
		{`{"dependentSchemas":{"Part":{"required":["Name"]}}}`, false},
		{`{"dependencies":{"Part":["Name"]}}`, false},
		{`{"const":{"Part":"A"}}`, false},
		{`{"enum":[{"Part":"A"}]}`, false},
		{`{"format":"date"}`, false},
		{`{"items":{"type":"string"}}`, false},
		{`{"minLength":4}`, false}, // of no consequence for a row, and not worth a thought
		{`{"$ref":"https://json-schema.org/draft/2020-12/schema"}`, false},
		{`{"properties":{"Part":{"$ref":"https://json-schema.org/draft/2020-12/schema"}}}`, true}, // its dynamic references are about what is in an object
	}
	none := &Set{kinds: map[string][]*rules{}}
	names := []string{"Part", "Name", "Colour"}
	for _, tt := range tests {
		s, problems := none.with("parts", tt.schema)
		require.Empty(t, problems, tt.schema)
		v := s.Validator("parts", names)
		assert.Equal(t, tt.plain, len(v.plain) == 1, tt.schema)
		assert.Equal(t, tt.plain, len(v.whole) == 0, tt.schema)
		for _, cells := range [][]any{{"A", nil, nil}, {"A", "n", nil}, {"A", "n", "c"}, {"B", nil, 5.0}, {"B", nil, 0.5}, {nil, nil, nil}, {true, nil, "c"}} {
			want := s.Validate("parts", fields(names, cells))
			assert.Equal(t, want, v.Validate(values(cells...)), "%s %v", tt.schema, cells)
			assert.Equal(t, len(want) == 0, v.good(values(cells...)), "%s %v", tt.schema, cells)
		}
	}
	// Where two columns have one name, only the whole row tells.
	v := plainSet(t).Validator("parts", []string{"Part", "Status", "Status"})
	assert.Len(t, v.whole, 1)
	assert.Empty(t, v.Validate(values("A", "current", "sold out")))
	assert.Len(t, v.Validate(values("A", "sold out", "current")), 1)
	assert.Len(t, v.Validate(values("A", nil, "sold out")), 1)
}

// What a schema says of a cell is kept only if it depends on nothing but the cell.
func TestCellsThatDependOnTheWay(t *testing.T) {
	for name, change := range map[string]func(s *jsonschema.Schema){
		"nothing":       func(s *jsonschema.Schema) {},
		"$dynamicRef":   func(s *jsonschema.Schema) { s.DynamicRef = blank() },
		"$recursiveRef": func(s *jsonschema.Schema) { s.RecursiveRef = blank() },
		"contentSchema": func(s *jsonschema.Schema) { s.ContentSchema = blank() },
		"an extension":  func(s *jsonschema.Schema) { s.Extensions = map[string]jsonschema.ExtSchema{"x": nil} },
		"a ring":        func(s *jsonschema.Schema) { s.Not = s },
	} {
		cell, not, top := blank(), blank(), blank()
		change(cell)
		not.Not = cell
		top.Properties = map[string]*jsonschema.Schema{"Part": not, "Name": cell}
		_, plain := newPlanner([]string{"Name", "Part"}).plan(&rules{schema: top})
		assert.Equal(t, name == "nothing", plain, name)
	}
	// A row's schema that leads back to itself is no expression either.
	ring := blank()
	ring.AllOf = []*jsonschema.Schema{blank(), ring}
	_, plain := newPlanner([]string{"Part"}).plan(&rules{schema: ring})
	assert.False(t, plain)
}

// A keyword that the library learns would be passed over in the schema of a cell, and one
// that blank does not know would make every row slow.
func TestEveryFieldOfTheLibraryIsKnown(t *testing.T) {
	r, err := compile(own+"a", map[string]any{own + "a": map[string]any{"not": map[string]any{}}})
	require.NoError(t, err)
	assert.True(t, only(r.schema, "Not"))
	assert.True(t, only(r.schema.Not))
	fields := reflect.VisibleFields(reflect.TypeFor[jsonschema.Schema]())
	assert.Len(t, fields, 71, "see whether planner.alone must look at what is new")
	for _, f := range fields {
		if !f.IsExported() || f.Name == "Location" || f.Name == "Draft" {
			continue
		}
		s := blank()
		differ(reflect.ValueOf(s).Elem().FieldByIndex(f.Index))
		assert.False(t, only(s), f.Name)
		assert.True(t, only(s, f.Name), f.Name)
	}
}

// differ gives a field another value than it has.
func differ(f reflect.Value) {
	switch f.Kind() {
	case reflect.Bool:
		f.SetBool(!f.Bool())
	case reflect.Int:
		f.SetInt(f.Int() + 1)
	case reflect.String:
		f.SetString("x")
	case reflect.Pointer:
		f.Set(reflect.New(f.Type().Elem()))
	case reflect.Slice:
		f.Set(reflect.MakeSlice(f.Type(), 1, 1))
	case reflect.Map:
		f.Set(reflect.MakeMap(f.Type()))
	default:
		f.Set(reflect.ValueOf(false))
	}
}

// Where the library panics, there is no verdict, whichever way it would count.
func TestNoVerdictOfAPanic(t *testing.T) {
	zero := blank()
	zero.MultipleOf = new(big.Rat) // no file can make this
	strange := blank()
	strange.Constant = []any{struct{}{}}
	for _, cell := range []*jsonschema.Schema{zero, strange} {
		top := blank()
		top.Not = blank()
		top.Not.Properties = map[string]*jsonschema.Schema{"Part": cell}
		s := &Set{kinds: map[string][]*rules{"parts": {{schema: top}}}}
		v := s.Validator("parts", []string{"Part"})
		require.Len(t, v.plain, 1)
		for range 2 {
			assert.False(t, v.good(values(1.0)))
			want := s.Validate("parts", row("Part", 1.0))
			assert.Len(t, want, 1)
			assert.Equal(t, want, v.Validate(values(1.0)))
		}
	}
}

func TestNumbersThatNoFileHolds(t *testing.T) {
	s, problems := plainSet(t).with("kits", `{"additionalProperties":{"multipleOf":0.1},"not":{"properties":{"Kit":{"type":"string"}}}}`)
	require.Empty(t, problems)
	for _, kind := range []string{"kits", "facts", "nonsense"} {
		v := s.Validator(kind, []string{"Kit", "Part", "Quantity"})
		for _, n := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), math.MaxFloat64, math.SmallestNonzeroFloat64, math.Copysign(0, -1)} {
			want := s.Validate(kind, row("Kit", n, "Part", n, "Quantity", n))
			assert.Equal(t, want, v.Validate(values(n, n, n)), "%s %v", kind, n)
			assert.Equal(t, len(want) == 0, v.good(values(n, n, n)), "%s %v", kind, n)
		}
	}
}

// Whether verdicts are kept or not, and while they no longer are, the same is said.
func TestVerdictsAreBounded(t *testing.T) {
	s, problems := plainSet(t).with("parts", `{"properties":{"Part":{"pattern":"[^7]$"},"Length":{"maximum":4999}}}`)
	require.Empty(t, problems)
	names := []string{"Part", "Length"}
	v := s.Validator("parts", names)
	long := strings.Repeat("x", maxKeptText)
	require.True(t, v.good(values(long+"y", nil)))
	require.Empty(t, v.columns[0].texts)
	for round := range 2 {
		for i := range maxKept + 1000 {
			part, length := fmt.Sprint("P-", i), float64(i)
			want := i%10 != 7 && i < 5000
			require.Equal(t, want, v.good(values(part, length)), "round %d row %d", round, i)
		}
		require.True(t, v.good(values(long+"y", nil)))
		require.False(t, v.good(values(long+"7", nil)))
		assert.Len(t, v.columns[0].texts, maxKept)
		assert.Len(t, v.columns[1].others, maxKept)
	}
	assert.Equal(t, s.Validate("parts", row("Part", "P-5017", "Length", 5017.0)), v.Validate(values("P-5017", 5017.0)))
	wide := s.Validator("parts", numbered(widest))
	assert.Equal(t, maxKeptAll/widest, wide.columns[5].room)
	assert.Panics(t, func() { v.Validate(values("A")) })
}

// widest is how many columns a sheet can have, up to XFD: common practice of spreadsheet
// programs, no source.
const widest = 16384

func numbered(n int) []string {
	out := make([]string, n)
	for i := range out {
		out[i] = fmt.Sprint("Column ", i)
	}
	return out
}

// More claims on one column than a verdict has bits are left to the whole schema.
func TestManyClaims(t *testing.T) {
	for n, plain := range map[int]bool{maxClaims - 1: true, maxClaims: true, maxClaims + 1: false} {
		var any []string
		for i := range n {
			any = append(any, fmt.Sprintf(`{"properties":{"Part":{"const":"P-%d"}}}`, i))
		}
		s, problems := (&Set{kinds: map[string][]*rules{}}).with("parts", `{"oneOf":[`+strings.Join(any, ",")+`]}`)
		require.Empty(t, problems)
		v := s.Validator("parts", []string{"Part"})
		assert.Equal(t, plain, len(v.plain) == 1, n)
		assert.Equal(t, !plain, len(v.columns[0].claims) == 0, n)
		assert.True(t, v.good(values(fmt.Sprint("P-", n-1))), n)
		assert.False(t, v.good(values(fmt.Sprint("P-", n))), n)
	}
}

func TestGoodRowsCostNoMemory(t *testing.T) {
	v, rows := sheet(t, "fitment", strict)
	for _, row := range rows[:5000] {
		require.Empty(t, v.Validate(row))
	}
	i := 0
	assert.Zero(t, testing.AllocsPerRun(1000, func() {
		v.Validate(rows[i])
		i++
	}))
}
