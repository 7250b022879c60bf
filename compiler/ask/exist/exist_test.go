package exist_test

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler"
	"ferrule/compiler/ask/exist"
	"ferrule/compiler/finding"
	"ferrule/out/data"
	"ferrule/out/markup"
	"ferrule/schema"
)

// catalogue compiles a catalogue whose only platform has some rows of Vehicles and Breaks.
func catalogue(t *testing.T, vehicles, breaks []exist.Cells) *exist.Lister {
	t.Helper()
	r := compiled(t, vehicles, breaks)
	for _, f := range r.Findings {
		if f.Severity == finding.Error {
			require.Contains(t, f.Message, "no sheet", f.Cells) // no parts and no positions, which nothing here asks for
		}
	}
	return exist.NewLister(r.Catalogue)
}

func compiled(t *testing.T, vehicles, breaks []exist.Cells) *compiler.Result {
	t.Helper()
	var b strings.Builder
	b.WriteString("-- c.xlsx/Platforms --\nPlatform\tYears\nH7\t2004-2008\n-- c.xlsx/Traits --\nTrait\tValue\tKind\n")
	for _, column := range traits[:3] {
		for _, v := range world[column] {
			if v != absent {
				fmt.Fprintf(&b, "%s\t%s\n", column, v)
			}
		}
	}
	b.WriteString("Number\t'1-12\tserial\n")
	sheet(&b, "Vehicles", append([]string{"Years"}, traits...), vehicles)
	if len(breaks) > 0 {
		sheet(&b, "Breaks", append([]string{"Trait", "Value", "Years"}, traits...), breaks)
	}
	books, err := markup.Books([]byte(b.String()))
	require.NoError(t, err)
	dir := t.TempDir()
	require.NoError(t, markup.WriteAll(dir, books, markup.Options{Plain: true}))
	r, err := compiler.Compile(t.Context(), compiler.Input{Paths: []string{dir}}, compiler.Options{Unchecked: true})
	require.NoError(t, err)
	return r
}

// sheet writes rows as text; what a spreadsheet program would take for a number stays one.
func sheet(b *strings.Builder, name string, columns []string, rows []exist.Cells) {
	fmt.Fprintf(b, "-- c.xlsx/%s --\nPlatform\t%s\n", name, strings.Join(columns, "\t"))
	for _, r := range rows {
		b.WriteString("H7")
		for _, c := range columns {
			b.WriteString("\t" + r[c])
		}
		b.WriteByte('\n')
	}
}

// What is proposed, and what is listed, leaves exactly the vehicles that the rows hold, counted one by
// one; and read back from workbooks the same configurations.
func TestSameVehicles(t *testing.T) {
	found := 0
	for seed := range uint64(60) {
		r := rand.New(rand.NewPCG(seed, 0))
		rows := boxes(r)
		if seed%3 > 0 {
			rows = product(r)
		}
		if len(rows) == 0 {
			continue
		}
		l := catalogue(t, rows, nil)
		list, err := l.List(t.Context())
		require.NoError(t, err)
		require.True(t, list[0].Exact)
		listed := said(l.Vehicles(list))
		same(t, rows, listed, nil, fmt.Sprintf("seed %d, listed", seed))

		all, err := l.Propose(t.Context())
		require.NoError(t, err)
		p := all[0]
		if p.Why != "" {
			require.Empty(t, p.Vehicles)
			continue
		}
		found++
		require.Less(t, p.After(), p.Before())
		same(t, rows, p.Vehicles, p.Breaks, fmt.Sprintf("seed %d, proposed", seed))
		again, err := catalogue(t, p.Vehicles, p.Breaks).List(t.Context())
		require.NoError(t, err)
		same(t, rows, said(l.Vehicles(again)), nil, fmt.Sprintf("seed %d, proposed and listed", seed))

		var out bytes.Buffer
		require.NoError(t, data.Proposals(&out, all))
		require.NoError(t, schema.ValidatePublished("vehicles.schema.json", out.Bytes()), out.String())
	}
	assert.Greater(t, found, 20)
}

// A value that was built twice takes two rows of Breaks, and the rest one row of Vehicles.
func TestValueBuiltTwice(t *testing.T) {
	var rows []exist.Cells
	for _, levelling := range []string{"Rod", "Sensor"} {
		rows = append(rows,
			exist.Cells{"Years": "2004-2008", "Front": "Beam", "Rear": "any", "Levelling": levelling},
			exist.Cells{"Years": "2004", "Front": "Arm", "Rear": "Two", "Levelling": levelling},
			exist.Cells{"Years": "2007-2008", "Front": "Arm", "Rear": "Four", "Levelling": levelling})
	}
	all, err := catalogue(t, rows, nil).Propose(t.Context())
	require.NoError(t, err)
	require.Empty(t, all[0].Why)
	same(t, rows, all[0].Vehicles, all[0].Breaks, "built twice")
	assert.Equal(t, []exist.Cells{{"Platform": "H7", "Years": "2004-2008", "Front": "Beam or Arm", "Rear": "any", "Levelling": "any"}}, all[0].Vehicles)
	assert.Equal(t, []exist.Cells{
		{"Platform": "H7", "Trait": "Front", "Value": "Arm", "Years": "2004", "Rear": "Two"},
		{"Platform": "H7", "Trait": "Front", "Value": "Arm", "Years": "2007-2008", "Rear": "Four"},
	}, all[0].Breaks)
	assert.True(t, all[0].Even)
}

// A platform of which rows are about others too, or could not be read, keeps its rows.
func TestKeptRows(t *testing.T) {
	rows := boxes(rand.New(rand.NewPCG(3, 3)))
	unread := append(rows, exist.Cells{"Years": "2004-5", "Front": "Beam"})
	all, err := exist.NewLister(compiled(t, unread, nil).Catalogue).Propose(t.Context())
	require.NoError(t, err)
	assert.Equal(t, "some of its rows cannot be read", all[0].Why)
	assert.Empty(t, all[0].Vehicles)
	assert.Equal(t, len(rows), all[0].Before(), "a row that is set aside is about no platform")
}

// Rows that were multiplied out of a few facts are told as these facts again, each as the rarer value
// has it.
func TestFactsFoundAgain(t *testing.T) {
	wide := exist.Cells{"Years": "2004-2008", "Front": "any", "Rear": "any", "Levelling": "any", "Number": "1-12"}
	facts := []exist.Cells{
		{"Trait": "Front", "Value": "Arm", "Number": "5 to 12"},
		{"Trait": "Front", "Value": "Leaf", "Years": "2004-2006", "Rear": "Two"},
		{"Trait": "Levelling", "Value": "Sensor", "Years": "2006-2008"},
	}
	var rows []exist.Cells
	for _, front := range world["Front"][:3] {
		for _, rear := range world["Rear"][:2] {
			for _, levelling := range world["Levelling"][:2] {
				rows = append(rows, inYears(wide, facts, vehicle{"Front": front, "Rear": rear, "Levelling": levelling})...)
			}
		}
	}
	require.Len(t, rows, 10)
	all, err := catalogue(t, rows, nil).Propose(t.Context())
	require.NoError(t, err)
	require.Len(t, all[0].Vehicles, 1)
	for i := range facts {
		facts[i]["Platform"] = "H7"
	}
	assert.Equal(t, facts, all[0].Breaks)
}
