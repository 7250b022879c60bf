package data

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"ferrule/compiler/model"
)

// What was refused of a part is the staff's alone.
func TestRefusedPropertiesAreNotPublished(t *testing.T) {
	part := &model.Part{Number: "HPR-1", Properties: []model.Property{{Name: "Torque", Text: "65 lb·ft (80 N·m)", Refused: true, Public: true}, {Name: "Colour", Text: "grey", Public: true}}}
	assert.Len(t, partOf(part).Properties, 1)
}
