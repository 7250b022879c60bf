package schema

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// row makes a row of column, value, column, value.
func row(pairs ...any) Row {
	var r Row
	for i := 0; i < len(pairs); i += 2 {
		r.Fields = append(r.Fields, Field{pairs[i].(string), pairs[i+1]})
	}
	return r
}

func plainSet(t *testing.T) *Set {
	t.Helper()
	s, problems := New(nil)
	require.Empty(t, problems)
	return s
}

// said gives violations as `Column: sentence`, without a colon before for the row.
func said(vs []Violation) []string {
	out := []string{}
	for _, v := range vs {
		if v.Field == "" {
			out = append(out, v.Message)
			continue
		}
		out = append(out, v.Field+": "+v.Message)
	}
	return out
}

func TestRowsThatPass(t *testing.T) {
	tests := []struct {
		kind string
		row  Row
	}{
		{"settings", row("Setting", "Title", "Value", "Guides")},
		{"settings", row("Setting", "release", "Value", 2027.0)},
		{"settings", row("Setting", " Base  URL ", "Value", "https://guides.example:8080/fit/")},
		{"settings", row("Setting", "UNITS", "Value", "MM")},
		{"settings", row("Setting", "decimal", "Value", ",")},
		{"platforms", row("Platform", "H7", "Years", 2011.0, "Maker", "Invented", "Summary", "s", "How to tell", "h", "Picture", "p.png")},
		{"traits", row("Trait", "Lift axle", "Value", true, "Kind", "Choice", "Effort", 5.0, "Platform", "H7")},
		{"traits", row("Trait", " years ", "How to tell", "the plate")},
		{"vehicles", row("Platform", "H7", "Years", "2007+", "Front suspension", "Air beam", "On the road", 310.5, "Note", 5.0)},
		{"vehicles", row("Platform", "H7", "On the road", 0.0)},
		{"positions", row("Position", "Front damper", "Axle", "FRONT", "Side", "both", "Quantity", 2.0, "Coverage", "wanted", "Air line", "Front line", "Lift axle", "not n/a")},
		{"parts", row("Part", 4711.0, "Name", "Damper", "Status", " Current ", "Line size", "1/2 in", "Colour", "black", "Mass [kg]", 4.5, "Coated", true)},
		{"breaks", row("Platform", "H7", "Trait", "Suspension", "Value", "Air", "Years", "2004+", "Lift axle", "fitted", "Source", "s", "Note", "n")},
		{"kits", row("Kit", "K-1", "Part", 12.0, "Quantity", 1.0)},
		{"references", row("Number", 99.0, "Part", "A", "Kind", "former", "Note", "n")},
		{"sizes", row("System", "ours", "Nominal", 14.0, "Outside diameter", "14 mm", "Tolerance", "±0.1 mm", "Wall", "1.5 mm", "Source", "drawing 7")},
		{"fitment", row("Platform", "any", "Front damper", "HD-20 or HD-10", "Front damper note", "n", "Precedence", -1.0)},
		{"fitment", row("Platform", "H7", "Position", "Front damper", "Fits", "none")},
		{"fitment", row("Front damper", "HD-20")},
		{"compatibility", row("Part", "A", "With", "B", "Effect", "Require", "Reason", "r", "Lift axle", "fitted")},
		{"compatibility", row("Family", "Damper", "Effect", "caution", "Reason", "r")},
		{"facts", row("Platform", "H7", "Ride height [mm]", 300.0, "Precedence", 2.0, "Source", "s")},
		{"limits", row("Limit", "stroke", "Family", "Damper", "Left", "Stroke", "Must be", "At  least", "Right", 100.0, "Effect", "warning", "Message", "m")},
		{"complaints", row("Complaint", "rocks", "Platform", "any", "Family", "Damper", "Order", 2.0, "How it helps", "h", "Source", "s")},
		{"inspections", row("What to look at", "the welds", "Level", " Danger", "Suspension", "Air")},
		{"limits", row("Limit", "of all parts", "Left", "x", "Must be", "equal to", "Right", "y")},
		{"calculated", row("Name", "Stroke", "Unit", "mm", "Formula", "A - B", "Family", "Damper", "Source", "s", "Note", "n")},
		{"cautions", row("Caution", "chock", "Text", "Chock the wheels.", "Level", "danger")},
		{"translations", row("Text", "Chock the wheels.", "fr", "Calez les roues.")},
		{"accepted", row("Finding", "coverage-gap", "Position", "Front damper", "Reason", "r", "By", "b", "Until", "2028-02-29")},
		{"accepted", row("Finding", "coverage-gap", "Reason", "r", "By", "b", "Until", "2028-02-29T10:30")},
		{"layouts", row("Sheet", "Chart", "Word", "Table", "Where", "header 3", "As", "Fitment", "Note", "n")},
		{"layouts", row("Sheet", 2027.0, "Word", "mark", "Where", 1.0, "As", "this row")},
		{"fitment", row("Platform", "H7", "Position", "Front damper")}, // Fits says nothing yet
		{"nonsense", row("Part", 1.0)},
	}
	s := plainSet(t)
	kinds := map[string]bool{}
	for _, tt := range tests {
		kinds[tt.kind] = true
		assert.Empty(t, said(s.Validate(tt.kind, tt.row)), "%s %v", tt.kind, tt.row)
	}
	delete(kinds, "nonsense")
	assert.Len(t, kinds, len(Kinds()), "each kind has a row that passes")
}

func TestRowsThatBreakARule(t *testing.T) {
	text := `; set the cell's format to General and type the number again`
	url := "; write the address under which the guides are published, such as https://guides.example/fit/"
	tests := []struct {
		kind string
		row  Row
		want string // sentences, one a line
	}{
		{"settings", row("Setting", "unit", "Value", "in"), `Setting: Setting is "unit"; write title, publisher, release, base url, contact, units, decimal, public columns, internal columns, language or languages (did you mean units?)`},
		{"settings", row("Setting", "units", "Value", "cm"), `Value: Value is "cm"; write in or mm, the unit that guides show first`},
		{"settings", row("Setting", "units", "Value", 1.0), `Value: Value is 1; write in or mm, the unit that guides show first`},
		{"settings", row("Setting", "Decimal", "Value", ";"), `Value: Value is ";"; write . or ,`},
		{"settings", row("Setting", "base url", "Value", "guides.example"), `Value: Value is "guides.example"` + url},
		{"settings", row("Setting", "base url", "Value", "ftp://guides.example/"), `Value: Value is "ftp://guides.example/"` + url},
		{"settings", row("Setting", "base url", "Value", "https:///fit"), `Value: Value is "https:///fit"` + url},
		{"settings", row("Setting", "base url", "Value", "https://guides.test/100%"), `Value: Value is "https://guides.test/100%"` + url},
		{"settings", row("Setting", "base url", "Value", "https://./fit"), `Value: Value is "https://./fit"` + url},
		{"settings", row("Setting", "base url", "Value", "https://guides.test/"+strings.Repeat("d", 131)), `Value: the address is longer than 150 characters; write a shorter one, since with the names of pages behind it, it must stay below the 2,048 that a sitemap takes`},
		{"settings", row("Setting", "base url", "Value", "https://guides.test/caf%C3%A9/é/"+strings.Repeat("d", 118)), ""},
		{"settings", row("Setting", "base url", "Value", "https://guides.example.com/fit/"), `Value: the address is a placeholder (RFC 2606 and 6761 keep it for examples and tests), and search engines would be sent there; write the one at which the guides will stand, or delete the row`},
		{"settings", row("Setting", "title"), `Value: Value is blank; fill it`},
		{"parts", row("Part", "A", "Part", "", "Status", "gone"), `Status: Status is "gone"; write current, superseded or withdrawn`}, // the first column of a header holds
		{"platforms", row("Platform", "H7"), `Years: Years is blank; fill it`},
		{"platforms", row("Summary", "s"), "Platform: Platform is blank; fill it\nYears: Years is blank; fill it"},
		{"traits", row("Trait", "Lift axle"), `Value: Value is blank; fill it`},
		{"traits", row("Value", "x"), `Trait: Trait is blank; fill it`},
		{"traits", row("Trait", "Years", "Value", 2011.0), `Value: a row about Years only says how to tell the model year, and declares none; clear its Value`},
		{"breaks", row("Platform", "H7", "Trait", "Suspension"), `Value: Value is blank; fill it`},
		{"traits", row("Trait", "T", "Value", "v", "Kind", "chioce"), `Kind: Kind is "chioce"; write choice, ordered, size, serial or date (did you mean choice?)`},
		{"traits", row("Trait", "T", "Value", "v", "Effort", 0.0), `Effort: Effort is 0; write a whole number from 1 to 5`},
		{"traits", row("Trait", "T", "Value", "v", "Effort", 6.0), `Effort: Effort is 6; write a whole number from 1 to 5`},
		{"traits", row("Trait", "T", "Value", "v", "Effort", 2.5), `Effort: Effort is 2.5; write a whole number from 1 to 5`},
		{"vehicles", row("Years", "2011"), `Platform: Platform is blank; fill it`},
		{"vehicles", row("Platform", "H7", "On the road", -0.5), `On the road: On the road is -0.5; write a number from 0 to 1000000000000`},
		{"vehicles", row("Platform", "H7", "On the road", "12000"), `On the road: On the road is the text "12000"` + text},
		{"vehicles", row("Platform", "H7", "On the road", "many"), `On the road: On the road is "many"; write a number from 0 to 1000000000000`},
		{"positions", row("Axle", "rear", "Position", "P"), `Axle: Axle is "rear"; write front, pusher, drive or tag`},
		{"positions", row("Position", "P", "Side", "center"), `Side: Side is "center"; write left, right, centre or both (did you mean centre?)`},
		{"positions", row("Position", "P", "Coverage", "require"), `Coverage: Coverage is "require"; write required, wanted or optional (did you mean required?)`},
		{"positions", row("Position", "P", "Quantity", 0.0), `Quantity: Quantity is 0; write a whole number from 1 to 9999`},
		{"parts", row("Name", "n"), `Part: Part is blank; fill it`},
		{"parts", row("Part", "A", "Status", "curent"), `Status: Status is "curent"; write current, superseded or withdrawn (did you mean current?)`},
		{"parts", row("Part", "A", "Status", false), `Status: Status is FALSE; write current, superseded or withdrawn`},
		{"kits", row("Kit", "K", "Part", "A", "Quantity", "2"), `Quantity: Quantity is the text "2"` + text},
		{"kits", row("Kit", "K", "Part", "A", "Quantity", 0.5), `Quantity: Quantity is 0.5; write a whole number from 1 to 9999`},
		{"kits", row("Kit", "K", "Part", "A", "Quantity", true), `Quantity: Quantity is TRUE; write a whole number from 1 to 9999`},
		{"kits", row("Kit", "K", "Quantity", "two"), "Part: Part is blank; fill it\n" + `Quantity: Quantity is "two"; write a whole number from 1 to 9999`},
		{"references", row("Number", "N"), `Part: Part is blank; fill it`},
		{"references", row("Number", "N", "Part", "A", "Kind", "orignal"), `Kind: Kind is "orignal"; write original, former or other (did you mean original?)`},
		{"sizes", row("System", "ours", "Wall", "1 mm"), `Nominal: Nominal is blank; fill it`},
		{"fitment", row("Platform", "H7", "Fits", "none"), `Position: Position is blank; fill it, since Fits is filled`},
		{"fitment", row("Platform", "H7", "Precedence", 1.5), `Precedence: Precedence is 1.5; write a whole number`},
		{"compatibility", row("Effect", "forbid", "Reason", "r"), `Part and Family are both blank; name the part or the family that the row is about`},
		{"compatibility", row("Part", "A", "Effect", "forbit"), "Reason: Reason is blank; fill it\n" + `Effect: Effect is "forbit"; write forbid, require or caution (did you mean forbid?)`},
		{"facts", row("Platform", "H7", "Precedence", "1"), `Precedence: Precedence is the text "1"` + text},
		{"limits", row("Limit", "l", "Left", "x", "Must be", "at leest", "Right", "y", "Position", "P"), `Must be: Must be is "at leest"; write at least, at most or equal to (did you mean at least?)`},
		{"calculated", row("Name", "Stroke", "Unit", "mm"), `Formula: Formula is blank; fill it`},
		{"complaints", row("Complaint", "rocks", "How it helps", "h"), `Position and Family are both blank; name the place, or the family of parts, that the complaint is about`},
		{"inspections", row("What to look at", "w", "Level", "grave"), `Level: Level is "grave"; write danger, warning, notice or note`},
		{"limits", row("Limit", "l", "Family", "F", "Left", "x", "Must be", "at most", "Right", 1.0, "Effect", "note"), `Effect: Effect is "note"; write error or warning`},
		{"cautions", row("Caution", "c", "Text", "t", "Level", "warn"), `Level: Level is "warn"; write danger, warning, notice or note`},
		{"translations", row("fr", "Calez les roues."), `Text: Text is blank; fill it`},
		{"cautions", row("Caution", "c"), `Text: Text is blank; fill it`},
		{"accepted", row("Finding", "f", "Reason", "r"), `By: By is blank; fill it`},
		{"accepted", row("Platform", "H7"), "By: By is blank; fill it\nFinding: Finding is blank; fill it\nReason: Reason is blank; fill it"},
		{"layouts", row("Sheet", "Chart", "Word", "acros"), `Word: Word is "acros"; write table, is, across, cells, mark, split, down, section, skip or say (did you mean across?)`},
		{"layouts", row("Where", "x"), "Sheet: Sheet is blank; fill it\nWord: Word is blank; write table, is, across, cells, mark, split, down, section, skip or say"},
		{"compatibility", row("Part", "A", "Reason", "r"), `Effect: Effect is blank; write forbid, require or caution`},
		{"positions", row("Position", "P", "Quantity", math.Inf(1), "Axle", "rear"), "Quantity: Quantity holds a number that cannot be read; type it again\n" + `Axle: Axle is "rear"; write front, pusher, drive or tag`},
		{"nonsense", row("Part", math.NaN()), "Part: Part holds a number that cannot be read; type it again"},
		{"accepted", row("Finding", "f", "Reason", "r", "By", "b", "Until", "2027-02-29"), `Until: Until is "2027-02-29"; write a date, typed as one or as 2028-03-31`},
		{"accepted", row("Finding", "f", "Reason", "r", "By", "b", "Until", 5.0), `Until: Until is 5; write a date, typed as one or as 2028-03-31`},
	}
	s := plainSet(t)
	kinds := map[string]bool{}
	for _, tt := range tests {
		kinds[tt.kind] = true
		got := s.Validate(tt.kind, tt.row)
		assert.Equal(t, tt.want, strings.Join(said(got), "\n"), "%s %v", tt.kind, tt.row)
		for _, v := range got {
			assert.True(t, strings.HasPrefix(v.Rule, "/"), "%s names its rule", v.Message)
		}
	}
	delete(kinds, "nonsense")
	assert.Len(t, kinds, len(Kinds()), "each kind has a row that fails")
}

func TestHostileNumbers(t *testing.T) {
	s, problems := New([]Extra{{"kits.schema.json", []byte(`{"properties":{"Quantity":{"multipleOf":0.1,"minimum":1e-300},"Part":{"enum":[1e300]}}}`)}})
	require.Empty(t, problems)
	for _, n := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		want := []string{"Quantity: Quantity holds a number that cannot be read; type it again", `Part: Part is "A"; write 1e300`}
		assert.ElementsMatch(t, want, said(s.Validate("kits", row("Kit", "K", "Part", "A", "Quantity", n))))
	}
	got := said(s.Validate("kits", row("Kit", "K", "Part", 1e300, "Quantity", math.MaxFloat64)))
	assert.Equal(t, []string{"Quantity: Quantity is 1.7976931348623157e+308; write a whole number from 1 to 9999"}, got)
	assert.NotEmpty(t, s.Validate("kits", row("Kit", "K", "Part", 1e300, "Quantity", math.SmallestNonzeroFloat64)))
	assert.NotEmpty(t, s.Validate("kits", row("Kit", "K", "Part", 1e300, "Quantity", "1e999999999")))
	// The row's own values stay as they are.
	r := row("Kit", "K", "Part", "A", "Quantity", math.Inf(1))
	s.Validate("kits", r)
	assert.True(t, math.IsInf(r.Fields[2].Value.(float64), 1))
}

func TestSameOrderEveryTime(t *testing.T) {
	s, problems := New([]Extra{{"parts.schema.json", []byte(`{
		"properties": {"Part": {"pattern": "^[A-Z]+$", "minLength": 9, "enum": ["X"]}, "Status": {"enum": ["current", "old"]}},
		"required": ["Name", "Family", "Summary"],
		"allOf": [{"properties": {"Part": {"pattern": "^[A-Z]+$"}}}, {"required": ["Name"]}],
		"anyOf": [{"required": ["Picture"]}, {"required": ["Cautions"]}]}`)}})
	require.Empty(t, problems)
	r := row("Status", "curent", "Part", "a-1", "Colour", math.NaN())
	first := s.Validate("parts", r)
	assert.Len(t, first, 10)
	for range 200 {
		again, _ := New([]Extra{})
		require.NotNil(t, again)
		require.Equal(t, first, s.Validate("parts", r))
	}
}

// Whatever stands in a row, validating ends, says something in each violation, names
// only columns of the row or the schema, and says nothing twice.
func TestAnyRow(t *testing.T) {
	s := plainSet(t)
	rapid.Check(t, func(t *rapid.T) {
		kind := rapid.SampledFrom(Kinds()).Draw(t, "kind")
		value := rapid.OneOf(
			rapid.Map(rapid.String(), func(s string) any { return s }),
			rapid.Map(rapid.Float64(), func(n float64) any { return n }),
			rapid.Map(rapid.Bool(), func(b bool) any { return b }),
			rapid.Map(rapid.SampledFrom([]string{"1", "any", "current", "units", "Years", "2027-01-01"}), func(s string) any { return s }),
		)
		var r Row
		known := map[string]bool{"": true}
		for _, c := range append(Columns(kind), Column{Name: "Colour/~ %2F"}) {
			known[c.Name] = true
			if rapid.Bool().Draw(t, "filled") {
				r.Fields = append(r.Fields, Field{c.Name, value.Draw(t, c.Name)})
			}
		}
		seen := map[string]bool{}
		for _, v := range s.Validate(kind, r) {
			key := fmt.Sprint(v.Field, "\x00", v.Message)
			if v.Message == "" || seen[key] || !known[v.Field] {
				t.Fatalf("%+v", v)
			}
			seen[key] = true
		}
	})
}

// Every column of every kind gets one value, of any type.
func FuzzValidate(f *testing.F) {
	for _, text := range []string{"", "current", "1e999999999", "~1/~0%2F", "2027-02-30", "Years", "units", "\xff"} {
		f.Add(text, "Colour/~ %2F", 1e308, true)
	}
	f.Add("x", "", math.Inf(-1), false)
	s, problems := New([]Extra{{"parts.schema.json", []byte(`{"additionalProperties":{"multipleOf":0.1},"propertyNames":{"format":"email"}}`)}})
	require.Empty(f, problems)
	f.Fuzz(func(t *testing.T, text, column string, number float64, truth bool) {
		for _, kind := range Kinds() {
			for _, v := range []any{text, number, truth, math.Float64frombits(math.Float64bits(number) ^ 1), nil} {
				r := row(column, v)
				for _, c := range Columns(kind) {
					r.Fields = append(r.Fields, Field{c.Name, v})
				}
				for _, violation := range s.Validate(kind, r) {
					require.NotEmpty(t, violation.Message)
				}
			}
		}
	})
}

func BenchmarkNew(b *testing.B) {
	for b.Loop() {
		New(nil)
	}
}

func BenchmarkValidate(b *testing.B) {
	s, _ := New(nil)
	for _, bb := range []struct {
		name, kind string
		row        Row
	}{
		{"fitment", "fitment", row("Platform", "H7", "Years", "2007-2012", "Front suspension", "Air beam", "Precedence", 1.0, "Front damper", "HD-20 or HD-10", "Rear damper", "2 x HD-30")},
		{"parts", "parts", row("Part", "HD-20", "Name", "Damper", "Family", "Dampers", "Status", "current", "Line size", "1/2 in")},
		{"broken", "parts", row("Part", "HD-20", "Status", "curent")},
	} {
		b.Run(bb.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				s.Validate(bb.kind, bb.row)
			}
		})
	}
}
