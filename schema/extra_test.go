package schema

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// check holds one row of parts against a catalogue's own parts.schema.json.
func check(t *testing.T, data string) ([]string, []string) {
	t.Helper()
	s, problems := New([]Extra{{"parts.schema.json", []byte(data)}})
	why := []string{}
	for _, p := range problems {
		assert.Equal(t, "parts.schema.json", p.File)
		why = append(why, p.Message)
	}
	return said(s.Validate("parts", row("Part", "ZZ-1", "Status", "Current", "Weight", "heavy", "Colour", 5.0))), why
}

func TestStricterSchemas(t *testing.T) {
	tests := []struct{ schema, want string }{
		{`{}`, ``},
		{`true`, ``},
		{`{"properties":{"Part":{"pattern":"^[A-Z]{2}-[0-9]{2,4}$"}},"required":["Name"]}`, "Name: Name is blank; fill it\n" + `Part: Part is "ZZ-1"; write text of the pattern ^[A-Z]{2}-[0-9]{2,4}$`},
		{`{"properties":{"Part":{"pattern":"^A","description":"a number that starts with A"}}}`, `Part: Part is "ZZ-1"; write a number that starts with A`},
		{`{"properties":{"Part":{"const":"A-1"}}}`, `Part: Part is "ZZ-1"; write "A-1"`},
		{`{"properties":{"Part":{"maxLength":2}}}`, `Part: Part is "ZZ-1"; write at most 2 characters`},
		{`{"properties":{"Part":{"minLength":9}}}`, `Part: Part is "ZZ-1"; write at least 9 characters`},
		{`{"properties":{"Part":{"format":"date"}}}`, `Part: Part is "ZZ-1"; write text of the format date`},
		{`{"properties":{"Part":false}}`, `Part: Part is "ZZ-1"; clear the cell, since its schema allows nothing there`},
		{`{"properties":{"Colour":{"type":"string"}}}`, `Colour: Colour is 5 and not text; set the cell's format to Text and type it again`},
		{`{"properties":{"Colour":{"multipleOf":2}}}`, `Colour: Colour is 5; write a multiple of 2`},
		{`{"properties":{"Colour":{"exclusiveMaximum":5}}}`, `Colour: Colour is 5; write a number less than 5`},
		{`{"properties":{"Colour":{"exclusiveMinimum":5}}}`, `Colour: Colour is 5; write a number more than 5`},
		{`{"properties":{"Colour":{"minimum":6}}}`, `Colour: Colour is 5; write a number of at least 6`},
		{`{"properties":{"Colour":{"maximum":4}}}`, `Colour: Colour is 5; write a number of at most 4`},
		{`{"properties":{"Weight":{"anyOf":[{"type":"number"},{"enum":["light"]}]}}}`, `Weight: Weight is "heavy", which does not meet any of the forms that its schema allows`},
		{`{"properties":{"Weight":{"oneOf":[{"type":"number"},{"enum":["light"]}],"description":"a number, or light"}}}`, `Weight: Weight is "heavy"; write a number, or light`},
		{`{"properties":{"Weight":{"not":{"const":"heavy"}}}}`, `Weight: Weight is "heavy", which its schema rules out`},
		{`{"dependentRequired":{"Part":["Name","Weight"]}}`, `Name: Name is blank; fill it, since Part is filled`},
		{`{"additionalProperties":false,"properties":{"Part":true,"Status":true}}`, "Weight: the schema allows no column Weight\nColour: the schema allows no column Colour"},
		{`{"unevaluatedProperties":false,"properties":{"Part":true,"Status":true,"Weight":true}}`, `Colour: Colour is 5; clear the cell, since its schema allows nothing there`},
		{`{"propertyNames":{"maxLength":5}}`, "Status: the column's name \"Status\" is not one that the schema allows\nWeight: the column's name \"Weight\" is not one that the schema allows\nColour: the column's name \"Colour\" is not one that the schema allows"},
		{`{"maxProperties":3}`, `the row has 4 cells filled; fill at most 3`},
		{`{"not":{"required":["Part"]}}`, `its schema allows no such row`},
		{`{"if":{"required":["Part"]},"then":false}`, `its schema allows no such row`},
		{`false`, `its schema allows no such row`},
		{`{"$id":"https://parts.example/p","properties":{"Part":{"$ref":"#/$defs/a"}},"$defs":{"a":{"const":"q"}}}`, `Part: Part is "ZZ-1"; write "q"`},
		{"\ufeff" + `{"$schema":"https://json-schema.org/draft/2020-12/schema","properties":{"Part":{"enum":["b"]}}}`, `Part: Part is "ZZ-1"; write b`},
		{`{"properties":{"Part":{"enum":["7E12345","1e99999"]}}}`, `Part: Part is "ZZ-1"; write 7E12345 or 1e99999`},
		{`{"patternProperties":{"^C":{"type":"boolean"}}}`, `Colour: Colour is 5; write TRUE or FALSE`},
		{`{"patternProperties":{"^[CW]":true},"properties":{"Part":true},"additionalProperties":false}`, `Status: the schema allows no column Status`},
		{`{"properties":{"Weight":{"type":"number","minimum":1}}}`, `Weight: Weight is "heavy"; write a number of at least 1`},
		{`{"minProperties":9}`, `the row has 4 cells filled; fill at least 9`},
		{`{"anyOf":[{"required":["Name"]},{"required":["Family"]}]}`, `the row does not meet any of the forms that its schema allows`},
		{`{"anyOf":[{"required":["Name"]},{"required":["Family"]}],"x-say":"fill Name or Family"}`, `fill Name or Family`},
		{`{"properties":{"Status":{"x-fold":true,"enum":["current"]}}}`, ``},
		// Ours holds as well, and what both say is said once.
		{`{"required":["Part"],"properties":{"Status":{"enum":["Current"]}}}`, ``},
	}
	for _, tt := range tests {
		got, why := check(t, tt.schema)
		assert.Empty(t, why, tt.schema)
		assert.Equal(t, tt.want, strings.Join(got, "\n"), tt.schema)
	}
}

// doubling makes a schema whose rules double with each of n definitions.
func doubling(n int) string {
	var defs []string
	for i := range n {
		defs = append(defs, fmt.Sprintf(`"d%d":{"allOf":[{"$ref":"#/$defs/d%d"},{"$ref":"#/$defs/d%d"}]}`, i, i+1, i+1))
	}
	defs = append(defs, fmt.Sprintf(`"d%d":{"minLength":1}`, n))
	return `{"properties":{"Part":{"$ref":"#/$defs/d0"}},"$defs":{` + strings.Join(defs, ",") + `}}`
}

func TestBrokenSchemas(t *testing.T) {
	const nothing = ", outside its folder, and nothing is fetched from there; copy that schema beside it and refer to it by its file name alone"
	const dialect = "; write https://json-schema.org/draft/2020-12/schema or leave it out"
	tests := []struct{ schema, want string }{
		{``, "it is no JSON: it ends too early: EOF"},
		{`{`, "it is no JSON: it ends too early: unexpected EOF"},
		{`{} {}`, "it is no JSON: more follows after the end"},
		{`[]`, "it is no JSON Schema: at its top: expected object or boolean, but got array"},
		{`null`, "it is no JSON Schema: at its top: expected object or boolean, but got null"},
		{`{"type":"strin"}`, "it is no JSON Schema: at type: this keyword cannot have that value"},
		{`{"properties":{"Part":{"pattern":"("}}}`, "it is no JSON Schema: at properties/Part/pattern: '(' is not valid 'regex'"},
		{`{"properties":{"On the road":{"minLength":-1}}}`, "it is no JSON Schema: at properties/On the road/minLength: must be >= 0 but found -1"},
		{`{"minimum":1e99999}`, "it holds the number 1e99999, whose exponent has more than three digits"},
		{`{"minimum":1e-00099999}`, "it holds the number 1e-00099999, whose exponent has more than three digits"},
		{`{"enum":[[{"a":1E+1000}]]}`, "it holds the number 1E+1000, whose exponent has more than three digits"},
		{strings.Repeat(`{"not":`, 101) + `{}` + strings.Repeat(`}`, 101), "it nests deeper than 100 levels"},
		{`{"$ref":"#"}`, "a reference in it leads back to itself, so that no row could ever be decided"},
		{`{"$ref":"#/nope"}`, "it cannot be used as a JSON Schema: parts.schema.json#/nope not found"},
		{`{"$schema":5}`, "its $schema is 5" + dialect},
		{`{"$schema":"http://json-schema.org/draft-07/schema#"}`, `its $schema is "http://json-schema.org/draft-07/schema#"` + dialect},
		{`{"$schema":"http://other.example/meta"}`, `its $schema is "http://other.example/meta"` + dialect},
		{`{"$id":"https://other.example/a","$ref":"b"}`, "it refers to b, and no schema that can be used is called so"},
		{`{"$defs":{"a":{"$id":"https://other.example/a/","$ref":"b"}},"$ref":"#/$defs/a"}`, "it refers to https://other.example/a/b" + nothing},
		{`{"$id":"https://ferrule.invalid/rows/parts.schema.json","$ref":"https://ferrule.invalid/rows/parts.schema.json"}`, "it refers to https://ferrule.invalid/rows/parts.schema.json" + nothing},
		{`{"$ref":"http://other.example/x.json"}`, "it refers to http://other.example/x.json" + nothing},
		{`{"$ref":"file:///etc/passwd"}`, "it refers to file:///etc/passwd" + nothing},
		{`{"$ref":"/etc/passwd"}`, "it refers to /etc/passwd" + nothing},
		{`{"$ref":"../up.schema.json"}`, "it refers to /up.schema.json" + nothing},
		{`{"$ref":"sub/x.schema.json"}`, "it refers to sub/x.schema.json" + nothing},
		{`{"$ref":"urn:x:y"}`, "it refers to urn:x:y" + nothing},
		{`{"$ref":"absent.schema.json"}`, "it refers to absent.schema.json, and no schema that can be used is called so"},
		{`{"$ref":"prts.schema.json"}`, "it refers to prts.schema.json, and no schema that can be used is called so (did you mean parts.schema.json?)"},
		{`{"$dynamicRef":"absent.schema.json"}`, "it uses $dynamicRef; write $ref with the place that is meant"},
		{`{"allOf":[{"$recursiveRef":"#"}]}`, "it uses $recursiveRef; write $ref with the place that is meant"},
		{`{"enum":[]}`, "it has an enum with nothing in it"},
		{`{"minimum":` + strings.Repeat("9", 101) + `}`, "it holds a number of more than 100 characters"},
		{"{\n\"type\": string}", "it is no JSON: line 2: invalid character 's' looking for beginning of value"},
		{`{"$ref":"#/$defs/a","$defs":{"a":{"$ref":"#/$defs/b"},"b":{"allOf":[{"$ref":"#/$defs/a"}]}}}`, "a reference in it leads back to itself, so that no row could ever be decided"},
		{doubling(40), "its references multiply to more than 10000 rules for one row"},
	}
	for _, tt := range tests {
		got, why := check(t, tt.schema)
		assert.Equal(t, []string{"parts.schema.json cannot be used: " + tt.want}, why, tt.schema)
		assert.Empty(t, got, "ours applies alone: %s", tt.schema)
	}
	// What only looks like a huge number is none.
	_, why := check(t, `{"description":"serial 1e99999"}`)
	assert.Empty(t, why)
}

func TestSchemasReferToEachOther(t *testing.T) {
	shared := Extra{"our names.schema.json", []byte(`{"$defs":{"number":{"pattern":"^A","description":"a number that starts with A"}}}`)}
	broken := Extra{"broken.schema.json", []byte(`{"type":`)}
	s, problems := New([]Extra{
		{"parts.schema.json", []byte(`{"properties":{"Part":{"$ref":"our%20names.schema.json#/$defs/number"}}}`)},
		shared, broken,
		{"kits.schema.json", []byte(`{"properties":{"Kit":{"$ref":"our names.schema.json#/$defs/number"}}}`)},
		{"limits.schema.json", []byte(`{"$ref":"broken.schema.json"}`)},
	})
	assert.Equal(t, []string{`Part: Part is "B"; write a number that starts with A`}, said(s.Validate("parts", row("Part", "B"))))
	assert.Equal(t, []string{`Kit: Kit is "B"; write a number that starts with A`}, said(s.Validate("kits", row("Kit", "B", "Part", "B"))))
	require.Len(t, problems, 2)
	assert.Equal(t, Problem{"broken.schema.json", "broken.schema.json cannot be used: it is no JSON: it ends too early: unexpected EOF"}, problems[0])
	assert.Equal(t, "limits.schema.json", problems[1].File)
}

func TestNamesOfSchemas(t *testing.T) {
	for _, name := range []string{"parts.schema.json", "Parts.schema.json", "parts strict.schema.json", "parts#2.schema.json", "parts%zz.schema.json", "parts?x.schema.json", "parts: new.schema.json"} {
		s, problems := New([]Extra{{name, []byte(`{"properties":{"Part":{"const":"A"}}}`)}})
		assert.Empty(t, problems, name)
		assert.Equal(t, []string{`Part: Part is "B"; write "A"`}, said(s.Validate("parts", row("Part", "B"))), name)
	}
	_, problems := New([]Extra{{"part.schema.json", []byte(`{}`)}})
	assert.Equal(t, []Problem{{"part.schema.json", "part.schema.json is for no kind of sheet, and no other schema refers to it; did you mean parts.schema.json?"}}, problems)
	_, problems = New([]Extra{{"partz.schema.json", []byte(`{}`)}, {"kits.schema.json", []byte(`{"$ref":"partz.schema.json"}`)}})
	assert.Empty(t, problems, "another schema refers to it")
	_, problems = New([]Extra{{"common.schema.json", []byte(`{}`)}})
	assert.Empty(t, problems, "a file that other schemas may refer to")
}

// A catalogue's schema can only add rules: whatever it allows, ours hold.
func TestOursCannotBeLoosened(t *testing.T) {
	bad := row("Part", "A", "Status", "sold out")
	want := []string{`Status: Status is "sold out"; write current, superseded or withdrawn`}
	for _, schema := range []string{
		`true`, `{}`, `{"properties":{"Status":{"enum":["sold out"]}}}`, `{"properties":{"Status":{"x-say":"fine","x-fold":true}}}`,
		`{"$id":"https://ferrule.invalid/rows/parts.schema.json"}`, `{"$id":"https://catalogue.invalid/schemas/kits.schema.json"}`,
		`{"$defs":{"a":{"$id":"https://ferrule.invalid/rows/parts.schema.json"}}}`, `{"x-columns":[],"x-header":[]}`,
		`{"$vocabulary":{}}`, `{"type":"nonsense"}`, doubling(10),
	} {
		s, _ := New([]Extra{{"parts.schema.json", []byte(schema)}})
		assert.Equal(t, want, said(s.Validate("parts", bad)), schema)
	}
}

func TestReferencesMayMultiply(t *testing.T) {
	s, problems := New([]Extra{{"parts.schema.json", []byte(doubling(10))}})
	require.Empty(t, problems)
	assert.Equal(t, []string{"Part: Part is \"\"; write at least 1 character"}, said(s.Validate("parts", row("Part", ""))))
}

// TestRulesMultiplyAnywhere holds that rules which multiply are found wherever they stand.
func TestRulesMultiplyAnywhere(t *testing.T) {
	for _, at := range []string{
		`"additionalProperties":%s`, `"patternProperties":{"^P":%s}`, `"propertyNames":%s`, `"unevaluatedProperties":%s`,
		`"not":%s`, `"if":%s`, `"then":%s,"if":{}`, `"else":%s,"if":{}`, `"anyOf":[%s]`, `"oneOf":[%s]`,
		`"dependentSchemas":{"Part":%s}`, `"dependencies":{"Name":["Part"],"Part":%s}`,
	} {
		schema := strings.Replace(doubling(40), `"properties":{"Part":{"$ref":"#/$defs/d0"}}`, fmt.Sprintf(at, `{"$ref":"#/$defs/d0"}`), 1)
		_, why := check(t, schema)
		assert.Equal(t, []string{"parts.schema.json cannot be used: its references multiply to more than 10000 rules for one row"}, why, at)
	}
}

func FuzzOwnSchema(f *testing.F) {
	for _, s := range []string{`{}`, `false`, `{"$ref":"#"}`, `{"properties":{"Part":{"pattern":"("}}}`, `{"$id":"x","$ref":"x#/a"}`, `{"multipleOf":0}`, `{"$schema":"kits.schema.json"}`, `{"$dynamicRef":"#a","$dynamicAnchor":"a"}`, `{"anyOf":[{"not":{}}]}`, `{"$defs":5}`} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		s := &Set{kinds: map[string][]*rules{}} // ours take long to compile and are tested elsewhere
		problems := s.extend([]Extra{{"parts.schema.json", data}, {"kits.schema.json", []byte(`{}`)}})
		for _, p := range problems {
			require.NotEmpty(t, p.Message)
		}
		for _, v := range s.Validate("parts", row("Part", "ZZ-1", "Colour", 5.5, "Coated", true)) {
			require.NotEmpty(t, v.Message)
		}
	})
}
