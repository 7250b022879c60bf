package schema

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// strict is a catalogue's own schema for fitment rows, as people write them.
const strict = `{
	"properties": {
		"Platform": {"type": "string", "pattern": "^P-[0-9]{4}$"},
		"Years": {"anyOf": [{"type": "integer", "minimum": 1980, "maximum": 2030}, {"pattern": "^[0-9]{4}[-+]([0-9]{4})?$"}]},
		"Suspension": {"enum": ["air beam", "walking beam", "leaf", "rubber"], "x-fold": true},
		"Front damper": {"type": "string", "pattern": "^[A-Z]{2}-[0-9]{1,4}( or [A-Z]{2}-[0-9]{1,4})*$"},
		"Rear damper": {"type": "string", "pattern": "^[A-Z]{2}-[0-9]{1,4}( or [A-Z]{2}-[0-9]{1,4})*$"},
		"Note": {"maxLength": 80}
	},
	"if": {"properties": {"Suspension": {"const": "leaf"}}, "required": ["Suspension"]},
	"then": {"required": ["Rear damper"]},
	"additionalProperties": {"type": ["string", "number", "boolean"], "maxLength": 40}
}`

// numberedParts wants a part number of a form; each is another one.
const numberedParts = `{"properties": {"Front damper": {"pattern": "^HD-[0-9]+$"}, "Note": {"minLength": 1}}}`

// benchRows is how many rows the sheet of the benchmark has.
const benchRows = 200_000

// sheet makes a validator and the rows of a sheet of 14 columns, which break no rule;
// strict "" stands for no schema but ours.
func sheet(t testing.TB, kind, strict string) (*Validator, [][]Value) {
	t.Helper()
	s := &Set{kinds: map[string][]*rules{kind: {ours()[kind]}}}
	if strict != "" {
		require.Empty(t, s.extend([]Extra{{kind + ".schema.json", []byte(strict)}}))
	}
	names := []string{"Platform", "Years", "Precedence", "Note", "Suspension", "Axles", "Lift axle", "Ride height", "Brakes",
		"Front damper", "Rear damper", "Front spring", "Rear spring", "Valve"}
	r := rand.New(rand.NewPCG(1, 2))
	rows := make([][]Value, benchRows)
	cells := slices.Grow([]Value(nil), benchRows*len(names))
	pick := func(words ...string) Value { return Text(words[r.IntN(len(words))]) }
	pool := func(format string, n int) func() Value {
		words := make([]string, n)
		for i := range words {
			words[i] = fmt.Sprintf(format, i)
		}
		return func() Value { return pick(words...) }
	}
	platform, years, damper, spring, valve := pool("P-%04d", 2000), pool("19%02d-2012", 100), pool("HD-%d", 400), pool("SP-%d or SP-7", 300), pool("VA-%d", 60)
	for i := range rows {
		note := Value{}
		if i%10 == 0 {
			note = Text(fmt.Sprintf("as seen on vehicle %d", i))
		}
		cells = append(cells, platform(), years(), Number(float64(r.IntN(4))), note, pick("Air beam", "Walking beam", "leaf", "rubber"),
			Number(float64(2+r.IntN(3))), Bool(r.IntN(2) == 0), Number(float64(200+r.IntN(60))/2), pick("disc", "drum"),
			damper(), damper(), spring(), spring(), valve())
		rows[i] = cells[i*len(names) : (i+1)*len(names) : (i+1)*len(names)]
	}
	return s.Validator(kind, names), rows
}

// BenchmarkValidator holds a whole sheet against its schemas, beginning without any
// verdict, and a tenth of it in the way of Set.Validate in the same run.
func BenchmarkValidator(b *testing.B) {
	for _, bb := range []struct{ name, strict string }{{"ours", ""}, {"strict", strict}} {
		b.Run(bb.name, func(b *testing.B) { benchmark(b, bb.strict, func(int, []Value) {}) })
	}
	// Each row has another part number and another note: verdicts are of no use.
	b.Run("distinct", func(b *testing.B) {
		benchmark(b, numberedParts, func(i int, row []Value) {
			row[9], row[3] = Text(fmt.Sprint("HD-", i)), Text(fmt.Sprint("note ", i))
		})
	})
}

func benchmark(b *testing.B, strict string, change func(int, []Value)) {
	v, rows := sheet(b, "fitment", strict)
	for i, row := range rows {
		change(i, row)
	}
	var fast, slow time.Duration
	const part = 10
	b.ReportAllocs()
	for b.Loop() {
		v = v.set.Validator(v.kind, v.names)
		start := time.Now()
		for _, row := range rows {
			if len(v.Validate(row)) > 0 {
				b.Fatal(v.Validate(row))
			}
		}
		fast += time.Since(start)
		b.StopTimer()
		start = time.Now()
		for i := 0; i < len(rows); i += part {
			if len(v.set.Validate(v.kind, v.row(rows[i]))) > 0 {
				b.Fatal("a row is good in one way and bad in the other")
			}
		}
		slow += time.Since(start)
		b.StartTimer()
	}
	n := float64(b.N)
	b.ReportMetric(float64(fast.Nanoseconds())/n/benchRows, "ns/row")
	b.ReportMetric(float64(slow.Nanoseconds())/n/(benchRows/part), "ns/row-whole")
	b.ReportMetric(float64(slow)*part/float64(fast), "times")
}
