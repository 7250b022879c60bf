package enumerate

import (
	"context"
	"database/sql"
	"fmt"
	"math/rand/v2"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"ferrule/compiler"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/line"
	"ferrule/compiler/model"
)

// ranged is a row about years, serial numbers and days of build, as the database holds it: dates
// are texts of a day or a month, and blank ends are open.
type ranged struct {
	from, to   int    // years
	low, high  int64  // numbers; 0: open
	early, end string // dates; "": open
	part       string // of Fitment; of Breaks the value
}

// probe is a configuration with a single number and day.
type probe struct {
	year   int
	number int64
	day    string
	value  string // of the trait that Breaks are about
}

const firstNumber, lastNumber = 10_001, 46_999

func anyMonth(r *rand.Rand) string { return fmt.Sprintf("%d-%02d", 2003+r.IntN(8), 1+r.IntN(12)) }

func anyDay(r *rand.Rand) string { return fmt.Sprintf("%s-%02d", anyMonth(r), 1+r.IntN(28)) }

func anyDate(r *rand.Rand) string {
	if r.IntN(2) == 0 {
		return anyMonth(r)
	}
	return anyDay(r)
}

// drawRanged draws a row, about as wide as a third of all there is in each respect.
func drawRanged(r *rand.Rand) ranged {
	out := ranged{from: 2003 + r.IntN(8)}
	out.to = out.from + r.IntN(2011-out.from)
	if r.IntN(3) > 0 {
		out.low = firstNumber + r.Int64N(lastNumber-firstNumber)
	}
	if r.IntN(3) > 0 {
		out.high = max(out.low, firstNumber) + r.Int64N(lastNumber-max(out.low, firstNumber)+1)
	}
	dates := []string{anyDate(r), anyDate(r)}
	slices.Sort(dates) // a month stands before its days
	if strings.HasPrefix(dates[1], dates[0]) && len(dates[0]) < len(dates[1]) {
		dates[0] = dates[1]
	}
	if r.IntN(3) > 0 {
		out.early = dates[0]
	}
	if r.IntN(3) > 0 {
		out.end = dates[1]
	}
	return out
}

// cells writes the row under Years, Chassis number and Built.
func (x ranged) cells() []any {
	number, built := "", ""
	switch {
	case x.low > 0 && x.high > 0:
		number = fmt.Sprintf("%d-%d", x.low, x.high)
	case x.low > 0:
		number = fmt.Sprintf("%d+", x.low)
	case x.high > 0:
		number = fmt.Sprintf("to %d", x.high)
	}
	switch {
	case x.early != "" && x.end != "":
		built = x.early + " to " + x.end
	case x.early != "":
		built = "from " + x.early
	case x.end != "":
		built = "to " + x.end
	}
	return []any{"H7", fmt.Sprintf("%d-%d", x.from, x.to), number, built}
}

// rangedBook writes a catalogue of one platform.
func rangedBook(t *testing.T, rows, breaks []ranged) string {
	f := excelize.NewFile()
	put := func(sheet string, rows ...[]any) {
		_, err := f.NewSheet(sheet)
		require.NoError(t, err)
		for i, row := range rows {
			require.NoError(t, f.SetSheetRow(sheet, fmt.Sprintf("A%d", i+1), &row))
		}
	}
	put("Platforms", []any{"Platform", "Years"}, []any{"H7", "2003-2010"})
	put("Traits", []any{"Trait", "Value", "Kind", "How to tell"}, []any{"Chassis number", fmt.Sprintf("%d-%d", firstNumber, lastNumber), "serial", "plate"},
		[]any{"Built", "2003-01 to 2010-12", "date", "plate"}, []any{"Front", "Beam", "choice", "look"}, []any{"Front", "Arms", "", "look"})
	put("Vehicles", []any{"Platform", "Years", "Chassis number", "Built", "Front"}, []any{"H7", "any", "any", "any", "any"})
	put("Positions", []any{"Position"}, []any{"Damper"})
	put("Parts", []any{"Part", "Name"}, []any{"D-1", "Damper"}, []any{"D-2", "Damper"}, []any{"D-3", "Damper"})
	fits, built := [][]any{{"Platform", "Years", "Chassis number", "Built", "Damper"}}, [][]any{{"Platform", "Years", "Chassis number", "Built", "Trait", "Value"}}
	for _, x := range rows {
		fits = append(fits, append(x.cells(), x.part))
	}
	for _, x := range breaks {
		built = append(built, append(x.cells(), "Front", x.part))
	}
	put("Fitment", fits...)
	put("Breaks", built...)
	require.NoError(t, f.DeleteSheet("Sheet1"))
	dir := t.TempDir()
	require.NoError(t, f.SaveAs(filepath.Join(dir, "c.xlsx")))
	return dir
}

// byRanges asks the database of each probe: the parts that rows fit, and whether it exists.
// SQLite works the ends of months out.
const byRanges = `SELECT probe.id,
	(SELECT count(*) = 0 FROM breaks b WHERE b.part = probe.value)
	OR EXISTS (SELECT 1 FROM breaks b WHERE b.part = probe.value AND probe.year BETWEEN b.y1 AND b.y2
		AND (b.n1 IS NULL OR probe.number >= b.n1) AND (b.n2 IS NULL OR probe.number <= b.n2)
		AND (b.d1 IS NULL OR probe.day >= b.d1) AND (b.d2 IS NULL OR probe.day <= b.d2)),
	(SELECT group_concat(part, ' ') FROM (SELECT DISTINCT part FROM fits r WHERE probe.year BETWEEN r.y1 AND r.y2
		AND (r.n1 IS NULL OR probe.number >= r.n1) AND (r.n2 IS NULL OR probe.number <= r.n2)
		AND (r.d1 IS NULL OR probe.day >= r.d1) AND (r.d2 IS NULL OR probe.day <= r.d2) ORDER BY part))
	FROM probe ORDER BY probe.id`

// insert puts a row into a table, with the first day of a month that begins it and the last of one
// that ends it.
const insert = `INSERT INTO %s SELECT ?1, ?2, nullif(?3, 0), nullif(?4, 0),
	CASE length(?5) WHEN 0 THEN NULL WHEN 7 THEN ?5 || '-01' ELSE ?5 END,
	CASE length(?6) WHEN 0 THEN NULL WHEN 7 THEN date(?6 || '-01', '+1 month', '-1 day') ELSE ?6 END, ?7`

// TestRangesInSQLite joins numbers and days to rows by their ranges, in a database that knows the
// calendar, and holds what the compiler says of each against it.
func TestRangesInSQLite(t *testing.T) {
	probes, none, several := 0, 0, 0
	for seed := range uint64(5) {
		r := rand.New(rand.NewPCG(seed, 17))
		var rows, breaks []ranged
		for i := range 14 {
			x := drawRanged(r)
			x.part = fmt.Sprintf("D-%d", 1+i%3)
			rows = append(rows, x)
		}
		for range 1 + r.IntN(3) {
			x := drawRanged(r)
			x.part = []string{"Beam", "Arms"}[r.IntN(2)]
			breaks = append(breaks, x)
		}
		res, err := compiler.Compile(context.Background(), compiler.Input{Paths: []string{rangedBook(t, rows, breaks)}}, compiler.Options{Today: "2027-03-01", Guides: true})
		require.NoError(t, err)
		for _, f := range res.Findings {
			require.NotContains(t, []string{"condition-malformed", "value-outside", "too-irregular"}, string(f.Code), f.Message)
		}
		asked := drawProbes(r, append(slices.Clone(rows), breaks...))
		for i, want := range rangesInSQL(t, rows, breaks, asked) {
			got := answered(res.Guides[0].Open(), asked[i])
			require.Equal(t, want, got, "seed %d: %+v", seed, asked[i])
			probes++
			switch {
			case want == "no such vehicle":
				none++
			case want == "conflict":
				several++
			}
		}
	}
	require.Greater(t, probes, 3000)
	require.Greater(t, none, 300, "vehicles that Breaks rule out")
	require.Greater(t, several, 300, "conflicts")
}

// drawProbes draws configurations, most of them where a row begins or ends, or beside that.
func drawProbes(r *rand.Rand, rows []ranged) []probe {
	var out []probe
	for range 900 {
		p := probe{2003 + r.IntN(8), firstNumber + r.Int64N(lastNumber-firstNumber+1), anyDay(r), []string{"Beam", "Arms"}[r.IntN(2)]}
		if x := rows[r.IntN(len(rows))]; r.IntN(4) > 0 && x.low > 0 && x.high > 0 {
			p.number = min(max([]int64{x.low, x.high}[r.IntN(2)]+r.Int64N(3)-1, firstNumber), lastNumber)
		}
		if x := rows[r.IntN(len(rows))]; r.IntN(2) > 0 && x.early != "" {
			p.day = (x.early + "-01")[:10]
		}
		out = append(out, p)
	}
	return out
}

func rangesInSQL(t *testing.T, rows, breaks []ranged, probes []probe) []string {
	db, err := sql.Open("sqlite", ":memory:")
	require.NoError(t, err)
	defer func() { require.NoError(t, db.Close()) }()
	db.SetMaxOpenConns(1)
	for name, in := range map[string][]ranged{"fits": rows, "breaks": breaks} {
		do(t, db, "CREATE TABLE "+name+" (y1, y2, n1, n2, d1, d2, part)")
		for _, x := range in {
			do(t, db, fmt.Sprintf(insert, name), x.from, x.to, x.low, x.high, x.early, x.end, x.part)
		}
	}
	do(t, db, "CREATE TABLE probe (id, year, number, day, value)")
	for i, p := range probes {
		do(t, db, "INSERT INTO probe VALUES (?, ?, ?, ?, ?)", i, p.year, p.number, p.day, p.value)
	}
	found, err := db.Query(byRanges)
	require.NoError(t, err)
	defer func() { require.NoError(t, found.Close()) }()
	var out []string
	for found.Next() {
		var id int
		var exists bool
		var parts sql.NullString
		require.NoError(t, found.Scan(&id, &exists, &parts))
		switch {
		case !exists:
			out = append(out, "no such vehicle")
		case !parts.Valid:
			out = append(out, "gap")
		case strings.Contains(parts.String, " "):
			out = append(out, "conflict")
		default:
			out = append(out, parts.String)
		}
	}
	require.NoError(t, found.Err())
	return out
}

// answered is what a guide says of a probe, by the ranges of its boxes.
func answered(g *decide.Guide, p probe) string {
	// Boxes leave a trait free where all values that vehicles of the platform have occur in them.
	if !p.in(model.Box{Traits: g.Traits}) || !slices.ContainsFunc(g.Vehicles, p.in) {
		return "no such vehicle"
	}
	for _, c := range g.Answers[0].Cases {
		if !p.in(c.Where) {
			continue
		}
		if c.Outcome != model.Fitted {
			return c.Outcome.String()
		}
		return c.Alternatives[0][0].Part.Number
	}
	return "no case"
}

// in tells whether a box holds a probe.
func (p probe) in(b model.Box) bool {
	if b.Years != nil && !slices.ContainsFunc(b.Years, func(s model.Span) bool { return s.From <= p.year && p.year <= s.To }) {
		return false
	}
	return !slices.ContainsFunc(b.Traits, func(t model.TraitSet) bool { return !p.has(t) })
}

func (p probe) has(t model.TraitSet) bool {
	if t.Trait.Name == "Front" {
		names, _ := t.Names()
		return slices.Contains(names, p.value)
	}
	at := line.Point{N: p.number}
	if t.Trait.Name == "Built" {
		var y, m, d int
		if n, err := fmt.Sscanf(p.day, "%d-%d-%d", &y, &m, &d); n != 3 || err != nil {
			panic("a probe has no day")
		}
		at = line.DayOf(y, m, d)
	}
	ranges, _ := t.Ranges()
	return ranges.Has(at)
}
