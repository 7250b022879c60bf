package pick_test

import (
	"context"
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler"
	"ferrule/compiler/ask/pick"
	"ferrule/compiler/model"
	"ferrule/compiler/tidy/share"
)

// catalogue binds a sample.
func catalogue(t *testing.T, name string) *model.Catalogue {
	t.Helper()
	res, err := compiler.Compile(context.Background(), compiler.Input{Paths: []string{"../../../testdata/" + name}}, compiler.Options{Unchecked: true})
	require.NoError(t, err)
	require.NotNil(t, res.Catalogue)
	return res.Catalogue
}

// vehicle is one configuration: a year, and a value of every trait.
type vehicle struct {
	platform *model.Platform
	year     int
	values   []int
}

func (v *vehicle) meets(w *model.When) bool {
	if w.SetAside || !w.Concerns(v.platform) || !w.Years.Has(v.year) {
		return false
	}
	return !slices.ContainsFunc(w.Traits, func(t model.TraitSet) bool { return !t.Values.Has(v.values[t.Trait.Index]) })
}

// exist lists the configurations of a platform, row by row, each once.
func exist(cat *model.Catalogue, p *model.Platform) []*vehicle {
	seen := map[string]bool{}
	var out []*vehicle
	for _, row := range cat.Vehicles {
		if row.When.SetAside || !row.When.Concerns(p) {
			continue
		}
		var fill func(v vehicle, t int)
		fill = func(v vehicle, t int) {
			if t == len(cat.Traits) {
				if key := fmt.Sprint(v.year, v.values); !seen[key] {
					seen[key] = true
					out = append(out, &v)
				}
				return
			}
			for x := range row.When.Traits[t].Values.Values() {
				next := v
				next.values = append(slices.Clone(v.values), x)
				fill(next, t+1)
			}
		}
		for _, y := range p.Years {
			if row.When.Years.Has(y) {
				fill(vehicle{platform: p, year: y}, 0)
			}
		}
	}
	return out
}

// answers tells all of a vehicle.
func (v *vehicle) answers(cat *model.Catalogue) []string {
	out := []string{fmt.Sprintf("year=%d", v.year)}
	for i, t := range cat.Traits {
		name := "n/a"
		if v.values[i] != t.Absent() {
			name = t.Values[v.values[i]].Name
		}
		out = append(out, t.Name+"="+name)
	}
	return out
}

// decided gives the Positions row of a vehicle, nil where it has no such position, and
// the cells with the highest precedence.
func (v *vehicle) decided(cat *model.Catalogue, pos *model.Position) (*model.PositionRow, []*model.FitCell) {
	i := slices.IndexFunc(pos.Rows, func(r *model.PositionRow) bool { return v.meets(&r.When) })
	if i < 0 {
		return nil, nil
	}
	var cells []*model.FitCell
	for _, f := range cat.Fitments {
		for _, c := range f.Cells {
			switch {
			case c.Position != pos || !v.meets(&f.When) || len(cells) > 0 && f.Precedence < cells[0].Row.Precedence:
			case len(cells) > 0 && f.Precedence > cells[0].Row.Precedence:
				cells = []*model.FitCell{c}
			default:
				cells = append(cells, c)
			}
		}
	}
	return pos.Rows[i], cells
}

func outcome(cells []*model.FitCell, quantity int) model.Outcome {
	if len(cells) == 0 {
		return model.Gap
	}
	for _, c := range cells {
		if c.Fits.Key(quantity) != cells[0].Fits.Key(quantity) {
			return model.Conflict
		}
	}
	return cells[0].Fits.Outcome
}

// TestEveryVehicleOfTheDemo asks for the pick list of every configuration of the demo
// catalogue and holds outcome, quantity and deciding cells against the rows, one by one.
func TestEveryVehicleOfTheDemo(t *testing.T) {
	cat := catalogue(t, "demo")
	desk := pick.NewLookup(cat)
	asked, all, step := 0, 0, share.Step(t)
	for _, p := range cat.Platforms {
		for i, v := range exist(cat, p) {
			all++
			if i%step > 0 {
				continue
			}
			q, err := desk.Query(p.Name, "", v.answers(cat))
			require.NoError(t, err)
			l, err := desk.List(context.Background(), q)
			require.NoError(t, err)
			require.Equal(t, "1", l.Configurations.String())
			require.Empty(t, l.Open)
			told := l.Positions
			for _, pos := range cat.Positions {
				row, cells := v.decided(cat, pos)
				if row == nil {
					continue
				}
				require.NotEmpty(t, told)
				require.Equal(t, pos, told[0].Position)
				way := told[0].Certain()
				require.NotNil(t, way)
				require.Equal(t, outcome(cells, row.Quantity), way.Case.Outcome, "%s on %v", pos.Name, q.Box())
				if len(cells) > 0 {
					require.Equal(t, row.Quantity, way.Case.Quantity)
					require.ElementsMatch(t, cells, way.Case.Cells)
				}
				told = told[1:]
			}
			require.Empty(t, told, "a position that the vehicle has not")
			asked++
		}
	}
	assert.Equal(t, 4128+312+318+384, all, "as coverage.json counts them")
	assert.GreaterOrEqual(t, asked, all/step)
}
