package data

import (
	"ferrule/compiler/ask/pick"
	"ferrule/compiler/line"
	"ferrule/compiler/model"
	"ferrule/compiler/wire"
)

// stretches gives, by trait, the stretch of what was told, as a closed range.
func stretches(taken []pick.Taken) wire.Object {
	var out wire.Object
	for _, t := range taken {
		whole := model.TraitSet{Trait: t.Trait, Line: &model.Line{Ranges: line.Set{t.Stretch}}}
		out = append(out, wire.Field{Name: t.Trait.Name, Value: wire.Ranges(whole)[0]})
	}
	return out
}

// unbuilt is a Breaks row because of which there are no such vehicles.
type unbuilt struct {
	Cell  *wire.Place `json:"cell"`
	Value wire.Object `json:"value"`
	Only  wire.Box    `json:"only"`
}

func unbuiltOf(u pick.Unbuilt) unbuilt {
	return unbuilt{wire.PlaceOf(u.Row.At), wire.TraitSets([]model.TraitSet{u.Value}), wire.BoxOf(u.Only)}
}
