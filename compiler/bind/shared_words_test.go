package bind

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"

	"ferrule/compiler/finding"
	"ferrule/compiler/model"
	"ferrule/sheets/cell"
)

// TestSharedWords holds that names which read alike in a language are told, with the cells that say so, also where one
// of them is not translated; and no others.
func TestSharedWords(t *testing.T) {
	wording := func(row int32, text, in string) *model.Translation {
		at := cell.Place{Pos: cell.Pos{Row: row, Col: 2}}
		return &model.Translation{Text: text, Wordings: []model.Wording{{Language: "fr", Text: in, At: at}}}
	}
	cat := &model.Catalogue{Settings: model.Settings{Languages: []string{"fr", "de"}},
		Positions:  []*model.Position{{Name: "Front damper"}, {Name: "Front shock"}, {Name: "Rear damper"}},
		Traits:     []*model.Trait{{Name: "Axle", Values: []*model.Value{{Name: "Essieu"}, {Name: "Beam"}}}, {Name: "Beam", Values: []*model.Value{{Name: "Air"}}}},
		Complaints: []*model.Complaint{{Name: "rocks"}, {Name: "Rocks"}, {Name: "sways"}},
		Translations: []*model.Translation{wording(2, "Front damper", "Amortisseur avant"), wording(3, "Front shock", "amortisseur  avant"),
			wording(4, "Rear damper", "Amortisseur arrière"), wording(5, "Beam", "Essieu"), wording(6, "rocks", "balance"), wording(7, "sways", "roule"), wording(8, "Rocks", "balance")}}
	var told []string
	b := &binder{cat: cat, Input: Input{Report: func(f *finding.Finding) {
		line := f.Message
		for _, c := range f.Cells {
			line += fmt.Sprintf(" %s %s", c.Pos, c.Note)
		}
		told = append(told, line)
	}}}
	b.sharedWords()
	assert.Equal(t, []string{
		`in fr, the positions "Front damper" and "Front shock" are both called "amortisseur  avant", so that nobody can tell them apart B3  B2 the other`,
		`in fr, the values of Axle "Essieu" and "Beam" are both called "Essieu", so that nobody can tell them apart B5 `,
	}, told)
}
