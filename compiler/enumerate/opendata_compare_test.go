package enumerate

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// compareOpen holds a build against the answers of SQLite.
func compareOpen(t *testing.T, want answers, got output) {
	// Each position of a platform lists up to 1,000 conflicts; stay below it.
	require.Less(t, len(want.conflict), 1000)
	require.Greater(t, len(want.conflict), 30)
	platforms, told := figures{}, figures{}
	for _, p := range got.coverage {
		platforms[fold(p.Platform)] = figure{p.Configurations, p.OnTheRoad}
		for _, pos := range p.Positions {
			for name, n := range pos.counts() {
				told[fold(p.Platform)+"|"+pos.Position+"|"+name] = figure{n, pos.OnTheRoad[name]}
			}
		}
	}
	same(t, "platforms", want.platforms, platforms)
	same(t, "outcomes", want.outcomes, told)
	conflicts := figures{}
	for _, f := range got.findings {
		switch f.Code {
		case "fitment-conflict":
			require.Len(t, f.Cells, 2)
			name := fold(f.Platform) + "|" + f.Position + "|" + pair(f.Cells[0], f.Cells[1])
			assert.NotContains(t, conflicts, name, "told once")
			conflicts[name] = figure{f.Configurations, f.OnTheRoad}
		case "coverage-gap", "coverage-planned", "coverage-ask":
			name := strings.TrimPrefix(f.Code, "coverage-")
			assert.Equal(t, want.outcomes[fold(f.Platform)+"|"+f.Position+"|"+name].configurations, f.Configurations, f.Message)
			boxes(t, want, f, name)
		default:
			assert.NotEqual(t, "error", f.Severity, f.Message)
		}
	}
	same(t, "conflicts", want.conflict, conflicts)
}

// same compares figures; what is nothing may be left out.
func same(t *testing.T, what string, want, got figures) {
	t.Helper()
	for name, f := range want {
		if g := got[name]; g.configurations != f.configurations || !near(g.road, f.road) {
			assert.Fail(t, what, "%s: %v, want %v", name, g, f)
		}
	}
	for name, g := range got {
		if _, ok := want[name]; !ok && g.configurations != 0 {
			assert.Fail(t, what, "%s: %v, not expected", name, g)
		}
	}
}

// boxes has SQLite count what lies in the boxes of a finding: all of the set
// and nothing that exists beside it, but for the rest that is not listed.
func boxes(t *testing.T, want answers, f finding, outcome string) {
	t.Helper()
	var parts []string
	for _, b := range f.Where {
		parts = append(parts, "("+b.sql()+")")
	}
	require.NotEmpty(t, parts, f.Message)
	inside := ask(t, want.db, fmt.Sprintf(`SELECT CASE WHEN outcome.outcome = '%s' THEN 'in' ELSE 'out' END, COUNT(*), SUM(road)
		FROM config LEFT JOIN outcome ON outcome.config = config.id AND outcome.position = '%s'
		WHERE make = '%s' AND (%s) GROUP BY 1`, outcome, f.Position, fold(f.Platform), strings.Join(parts, " OR ")))
	assert.Zero(t, inside["out"].configurations, "%s %s %s: boxes hold too much", f.Code, f.Platform, f.Position)
	assert.Equal(t, f.Configurations, inside["in"].configurations+f.Rest, "%s %s %s", f.Code, f.Platform, f.Position)
}

// sql writes a box as a condition.
func (b box) sql() string {
	out := []string{"1"}
	var years []string
	for _, s := range b.Years {
		years = append(years, fmt.Sprintf("year BETWEEN %d AND %d", s[0], s[1]))
	}
	if len(years) > 0 {
		out = append(out, "("+strings.Join(years, " OR ")+")")
	}
	for trait, values := range b.Traits {
		col := strings.ToLower(trait)
		var names []string
		some := []string{"0"}
		for _, v := range values {
			if v == nil {
				some = append(some, col+" IS NULL")
			} else {
				names = append(names, *v)
			}
		}
		if len(names) > 0 {
			some = append(some, col+" IN ("+quoted(names)+")")
		}
		out = append(out, "("+strings.Join(some, " OR ")+")")
	}
	return strings.Join(out, " AND ")
}
