package compare

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"ferrule/compiler/model"
	"ferrule/sheets/cell"
)

// Rows that were only moved, or written in other letters, are no difference; of the others those of one
// complaint and place are held against each other.
func TestAdvice(t *testing.T) {
	at := func(row int32) cell.Place { return cell.Place{Pos: cell.Pos{Row: row, Col: 1}} }
	front := &model.Position{Name: "Front damper"}
	old := &model.Catalogue{Complaints: []*model.Complaint{
		{Name: "rocks", Position: front, Helps: "damps"}, {Name: "dives", Family: "Damper", Helps: "holds"}, {Name: "leans", Position: front, Helps: "lifts", Check: "tyres"}},
		Inspections: []*model.Inspection{{Look: "welds", Level: "danger", At: at(2)}, {Look: "hoses", Level: "notice", Why: "they age", At: at(3)}, {Look: "pins", Level: "warning", At: at(4)}}}
	new := &model.Catalogue{Complaints: []*model.Complaint{
		{Name: "Leans", Position: front, Helps: "lifts", Check: "load"}, {Name: "rocks", Position: front, Helps: "damps"}, {Name: "sinks", Position: front, Helps: "fills"}},
		Inspections: []*model.Inspection{{Look: "pins", Level: "note"}}}
	c := &comparison{old: &side{Release: &Release{Catalogue: old}}, new: &side{Release: &Release{Catalogue: new}}}
	var got []string
	for _, a := range c.advice([]Loss{{Old: []cell.Place{at(2)}}, {Old: []cell.Place{at(4)}}}) {
		got = append(got, a.Sheet+"|"+a.What+"|"+a.Was+"|"+a.Now)
	}
	assert.Equal(t, []string{
		"Complaints|dives: Damper|holds|", "Complaints|leans: Front damper|lifts; check first: tyres|lifts; check first: load",
		"Complaints|sinks: Front damper||fills", "Inspections|hoses|notice; why: they age|"}, got)
}
