package exist_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"ferrule/compiler/ask/exist"
)

// What follows is a reading of its own of rows as people read them, one vehicle at a time: a year, a
// value of three traits, and a number of which each is counted by itself.

// absent is 'does not apply'.
const absent = "n/a"

// world is all that there may be: a column is a trait, and numbers are written as such.
var world = map[string][]string{
	"Front": {"Beam", "Arm", "Leaf", absent}, "Rear": {"Two", "Four", absent}, "Levelling": {"Rod", "Sensor", absent},
	"Number": {"1", "2", "3", "4", "5", "6", "7", "8", "9", "10", "11", "12", absent},
	"Years":  {"2004", "2005", "2006", "2007", "2008"},
}

var traits = []string{"Front", "Rear", "Levelling", "Number"}

type vehicle map[string]string

// everyVehicle gives all combinations.
func everyVehicle() []vehicle {
	all := []vehicle{{}}
	for _, column := range append([]string{"Years"}, traits...) {
		var next []vehicle
		for _, v := range all {
			for _, value := range world[column] {
				w := vehicle{column: value}
				for k, old := range v {
					w[k] = old
				}
				next = append(next, w)
			}
		}
		all = next
	}
	return all
}

// says tells whether a cell holds for a value. Where `any` and `not` reach over values only, stated
// is true and a blank cell is n/a; else it is any.
func says(text, value string, stated bool) bool {
	switch rest, not := strings.CutPrefix(text, "not "); {
	case text == "" && stated:
		return value == absent
	case text == "":
		return true
	case text == "any":
		return !stated || value != absent
	case not:
		return !says(rest, value, stated) && (!stated || value != absent)
	}
	return slices.ContainsFunc(strings.FieldsFunc(strings.ReplaceAll(text, " or ", ","), func(r rune) bool { return r == ',' }), func(piece string) bool {
		piece = strings.ReplaceAll(strings.TrimSpace(piece), " to ", "-")
		low, high, ranges := strings.Cut(piece, "-")
		n, err := strconv.Atoi(value)
		return piece == value || ranges && err == nil && number(low) <= n && n <= number(high)
	})
}

func number(text string) int {
	n, err := strconv.Atoi(text)
	if err != nil {
		panic(err)
	}
	return n
}

func (v vehicle) meets(row exist.Cells, stated bool) bool {
	for _, t := range traits {
		if !says(row[t], v[t], stated) {
			return false
		}
	}
	return says(row["Years"], v["Years"], false)
}

// exists tells whether rows of Vehicles and Breaks let a vehicle be.
func (v vehicle) exists(vehicles, breaks []exist.Cells) bool {
	listed := slices.ContainsFunc(vehicles, func(r exist.Cells) bool { return v.meets(r, true) })
	for _, t := range traits {
		named, built := false, false
		for _, b := range breaks {
			if b["Trait"] == t && says(b["Value"], v[t], true) {
				named, built = true, built || v.meets(b, false)
			}
		}
		listed = listed && (!named || built)
	}
	return listed
}

// said gives the rows of a table by column.
func said(t exist.Table) []exist.Cells {
	var out []exist.Cells
	for _, row := range t.Rows {
		c := exist.Cells{}
		for i, column := range t.Columns {
			c[column] = row[i]
		}
		out = append(out, c)
	}
	return out
}

// product multiplies out, as hands do, what some random rows of Breaks leave of everything.
func product(r *rand.Rand) []exist.Cells {
	wide := exist.Cells{"Years": "2004-2008", "Front": "any", "Rear": "any", "Levelling": "any", "Number": "1-12"}
	var breaks []exist.Cells
	for range 1 + r.IntN(4) {
		t := traits[r.IntN(3)]
		b := exist.Cells{"Trait": t, "Value": pick(r, t, 1)}
		for _, c := range append([]string{"Years"}, traits...) {
			if c != t && r.IntN(3) == 0 {
				b[c] = condition(r, c)
			}
		}
		breaks = append(breaks, b)
	}
	var out []exist.Cells
	for _, front := range world["Front"][:3] {
		for _, rear := range world["Rear"][:2] {
			for _, levelling := range world["Levelling"][:2] {
				out = append(out, inYears(wide, breaks, vehicle{"Front": front, "Rear": rear, "Levelling": levelling})...)
			}
		}
	}
	return out
}

// inYears gives a row for each number and its years, numbers alike joined.
func inYears(wide exist.Cells, breaks []exist.Cells, v vehicle) []exist.Cells {
	var order []string
	by := map[string][]string{}
	for _, n := range world["Number"][:12] {
		var years []string
		for _, y := range world["Years"] {
			v["Number"], v["Years"] = n, y
			if v.exists([]exist.Cells{wide}, breaks) {
				years = append(years, y)
			}
		}
		key := strings.Join(years, ", ")
		if key != "" && by[key] == nil {
			order = append(order, key)
		}
		by[key] = append(by[key], n)
	}
	var out []exist.Cells
	for _, years := range order {
		out = append(out, exist.Cells{"Years": years, "Front": v["Front"], "Rear": v["Rear"], "Levelling": v["Levelling"], "Number": strings.Join(by[years], ", ")})
	}
	return out
}

// pick gives n values of a column, never n/a.
func pick(r *rand.Rand, column string, n int) string {
	values := slices.DeleteFunc(slices.Clone(world[column]), func(v string) bool { return v == absent })
	r.Shuffle(len(values), func(i, j int) { values[i], values[j] = values[j], values[i] })
	return strings.Join(values[:n], ", ")
}

func condition(r *rand.Rand, column string) string {
	switch column {
	case "Years":
		from := 2004 + r.IntN(5)
		return fmt.Sprintf("%d-%d", from, from+r.IntN(2009-from))
	case "Number":
		from := 1 + r.IntN(12)
		return fmt.Sprintf("%d-%d", from, from+r.IntN(13-from))
	}
	return pick(r, column, 1)
}

// boxes gives random rows.
func boxes(r *rand.Rand) []exist.Cells {
	var out []exist.Cells
	for range 2 + r.IntN(5) {
		c := exist.Cells{"Years": condition(r, "Years")}
		for _, t := range traits {
			switch r.IntN(4) {
			case 0:
				c[t] = "any"
			case 1:
				c[t] = absent
			case 2:
				c[t] = pick(r, t, 1) + ", " + absent
			default:
				c[t] = pick(r, t, 1+r.IntN(2))
			}
		}
		out = append(out, c)
	}
	return out
}

// same asks that rows leave exactly the vehicles that others leave.
func same(t *testing.T, want, vehicles, breaks []exist.Cells, about string) {
	t.Helper()
	for _, v := range everyVehicle() {
		require.Equal(t, v.exists(want, nil), v.exists(vehicles, breaks), "%s\n%v\n%v\n%v\n%v", about, v, want, vehicles, breaks)
	}
}
