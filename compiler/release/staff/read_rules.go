package staff

import (
	"slices"

	"ferrule/compiler/measure"
	"ferrule/compiler/model"
)

// protected reads what of a part protects, and which of its properties are published.
func (r *reader) protected(p *model.Part, in *part, comma bool) {
	if in.LineSize != "" {
		// One that cannot be read equals nothing, as in the workbook.
		size, err := measure.ParseSize(in.LineSize, measure.Options{Comma: comma})
		if err != nil {
			size = measure.Size{Text: in.LineSize}
		}
		p.Line = &size
	}
	for _, n := range in.Notes {
		note := model.Note{Text: n.Text}
		if n.Caution != "" {
			note = model.Note{Caution: r.cautions[n.Caution]}
			if note.Caution == nil {
				r.fail("nothing declares the caution %q", n.Caution)
			}
		}
		p.Cautions = append(p.Cautions, note)
	}
	for _, q := range in.Properties {
		p.Properties = append(p.Properties, model.Property{Name: q.Name, Text: q.Text, Public: !q.Internal, At: r.place(q.Cell)})
	}
}

// trait gives a declared trait; nil, and a fault, where there is none.
func (r *reader) trait(name string) *model.Trait {
	t := r.traits[name]
	if t == nil {
		r.fail("nothing declares the trait %q", name)
	}
	return t
}

func (r *reader) rule(in *compatibility) *model.Rule {
	out := &model.Rule{Family: in.Family, When: r.when(in.When), Reason: in.Reason, At: r.place(in.Cell)}
	if in.Part != "" {
		out.Part = r.part(in.Part)
	}
	if in.With != "" {
		out.With = r.part(in.With)
	}
	effect := slices.IndexFunc([]model.Effect{model.Forbid, model.Require, model.Care}, func(e model.Effect) bool { return e.String() == in.Effect })
	if effect < 0 || out.Part == nil && out.Family == "" || out.With == nil && in.Effect == model.Require.String() {
		r.fail("a row of Compatibility says nothing")
		effect = 0
	}
	out.Effect = model.Effect(effect)
	return out
}

func (r *reader) limit(i int, in *limit) *model.Limit {
	out := &model.Limit{Index: i, Name: in.Limit, Family: in.Family, Left: in.Left, Must: in.MustBe, Right: in.Right,
		Warning: in.Effect == "warning", Message: in.Message, At: r.place(in.Cell)}
	if in.Position != "" {
		out.Position = r.position(in.Position)
	}
	return out
}
