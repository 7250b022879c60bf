package staff

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"ferrule/compiler/model"
)

// What was refused of a part, the staff may see.
func TestRefusedPropertiesAreTheStaffs(t *testing.T) {
	part := &model.Part{Number: "HPR-1", Properties: []model.Property{{Name: "Torque", Text: "65 lb·ft (80 N·m)", Refused: true, Public: true}, {Name: "Colour", Text: "grey", Public: true}}}
	assert.Len(t, partOf(part).Properties, 2)
}
