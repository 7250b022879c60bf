package guide_test

import (
	"context"
	"math/big"
	"testing"

	"github.com/stretchr/testify/require"

	"ferrule/compiler/finding"
	"ferrule/compiler/formula"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/measure"
	"ferrule/compiler/model"
	"ferrule/compiler/picture"
	"ferrule/compiler/space"
	"ferrule/out/address"
	"ferrule/out/guide"
	offering "ferrule/out/offer"
)

// secret stands in every field that is for the staff only.
const secret = "STAFFONLY"

// sample is a small catalogue by hand, of an invented supplier, with every kind of
// answer on its first platform.
type sample struct {
	Cat      *model.Catalogue
	Guides   []*decide.Guide
	pictures *picture.Set
	findings []*finding.Finding // of one that was compiled
}

func set(values ...int) space.Set {
	s := space.Set{0}
	for _, v := range values {
		s[0] |= 1 << v
	}
	return s
}

func values(numbers ...int) decide.Values { return decide.Values(set(numbers...)) }

func trait(index int, name string, values ...string) *model.Trait {
	t := &model.Trait{Index: index, Name: name, Effort: 1}
	for _, v := range values {
		t.Values = append(t.Values, &model.Value{Name: v})
	}
	return t
}

func part(number, name, family string) *model.Part {
	return &model.Part{Number: number, Name: name, Family: family, Listed: true, Known: true}
}

func tell(text string) []model.Tell { return []model.Tell{{Text: text}} }

func one(quantity int, parts ...*model.Part) model.Alternative {
	var a model.Alternative
	for _, p := range parts {
		a = append(a, model.Item{Part: p, Quantity: quantity})
	}
	return a
}

// stroke is a formula as part pages print one.
func stroke() *formula.Formula {
	names := formula.NewNames()
	for i, name := range []string{"Extended length", "Compressed <length>"} {
		names.Add(formula.Name{Text: name, ID: i, Dim: measure.Dimension{Length: 1}})
	}
	f, err := formula.Parse("Extended length - Compressed <length>", names, measure.Options{})
	if err != nil {
		panic(err)
	}
	return f
}

func quantity(text string, unit measure.Unit) measure.Quantity {
	q, err := measure.ParseQuantityIn(text, unit, measure.Options{})
	if err != nil {
		panic(err)
	}
	return q
}

// newSample builds the catalogue anew, so that a test may change it.
func newSample() *sample {
	cat := &model.Catalogue{Settings: model.Settings{
		Title: "Wending Ride Parts: fitment guides", Publisher: "Wending Ride Parts", Release: "2027-1",
		Contact: "the parts desk, 555 0100", BaseURL: "https://guides.example",
	}}
	heron := &model.Platform{Index: 0, Name: "Heron 7", Maker: "Tarn Chassis", Years: []int{2004, 2005, 2006, 2007, 2008, 2010, 2011},
		Summary: "Rear-engined chassis of mobile libraries.", Tell: "The plate behind the driver's seat begins with HN7.", Picture: model.Picture{Name: secret}}
	wren := &model.Platform{Index: 1, Name: "Wren 2", Years: []int{2009}}
	cat.Platforms = []*model.Platform{heron, wren}
	cat.YearTell = []model.Tell{{Text: "Tenth character of the VIN."}, {Platform: heron, Text: "On the plate, second line."}}

	front := trait(0, "Front suspension", "Air beam", "Twin arm", "Leaf", "Coil")
	front.Question = "What carries the front axle?"
	front.Tell = tell("Look in from the front, behind the bumper.")
	front.Values[0].Tell = tell("One air spring on each side of a solid beam.")
	front.Values[1].Tell = []model.Tell{{Text: "Two arms on each side."}, {Platform: heron, Text: "Two arms, painted grey on this platform."}}
	levelling := trait(1, "Levelling", "Mechanical", "Electronic")
	levelling.Values[0].Tell = tell("A valve with air lines running to it.")
	levelling.Values[1].Tell = tell("A sensor with only a wire harness.")
	line := trait(2, "Front air line", "1/4 in", "3/8 in")
	lift := trait(3, "Lift axle", "Fitted")
	tee := trait(4, "Tee at air spring", "Yes", "No")
	cat.Traits = []*model.Trait{front, levelling, line, lift, tee}

	damper := &model.Position{Index: 0, Name: "Front damper", Axle: "front", Side: "both", Summary: "Between beam and frame."}
	left := &model.Position{Index: 1, Name: "Restrictor left", Axle: "front", Side: "left"}
	right := &model.Position{Index: 2, Name: "Restrictor right", Axle: "front", Side: "right", Pair: left}
	left.Pair = right
	left.Rows = []*model.PositionRow{{Position: left, Quantity: 1, AirLine: line}}
	bar := &model.Position{Index: 3, Name: "Anti-roll bar", Axle: "front", Side: "centre"}
	crank := &model.Position{Index: 4, Name: "Bell crank", Axle: "front"}
	steering := &model.Position{Index: 5, Name: "Steering damper", Axle: "front"}
	nowhere := &model.Position{Index: 6, Name: "Tag damper", Axle: "tag"}
	cat.Positions = []*model.Position{damper, left, right, bar, crank, steering, nowhere}
	for _, p := range cat.Positions {
		p.Picture.Name = secret
	}

	old, newer, newest := part("WD-100", "Front damper", "Dampers"), part("WD-110", "Front damper, firm", "Dampers"), part("WD-120", "Front damper, long travel", "Dampers")
	old.Status, newer.Status = model.Withdrawn, model.Superseded
	old.ReplacedBy = &model.Fits{Outcome: model.Fitted, Alternatives: []model.Alternative{one(0, newer)}}
	newer.ReplacedBy = &model.Fits{Outcome: model.Fitted, Alternatives: []model.Alternative{one(0, newest)}}
	newest.Properties = []model.Property{
		{Name: "Extended length", Unit: "mm", Text: "642.5", Quantity: quantity("642.5", measure.Millimetre)},
		{Name: "Tightening torque", Text: "65 ft-lb", Quantity: quantity("65 ft-lb", measure.NoUnit)},
		{Name: "Eye", Text: ""}, {Name: "Colour", Text: "grey"}, {Name: "Lamp", Unit: "V", Text: "24"},
		{Name: "Stroke", Unit: "mm", Text: "264.5", Quantity: measure.New(big.NewRat(529, 2), big.NewRat(529, 2), measure.Millimetre),
			By: &model.Calculated{Formula: stroke(), Source: "By definition", Note: secret}},
		{Name: secret, Text: secret}}
	for i := range newest.Properties {
		newest.Properties[i].Public = newest.Properties[i].Text != secret
	}
	newest.Summary = "For chassis with raised bodies."
	newest.Cautions = []model.Note{{Text: "The damper is under gas pressure: never open it."}}
	restrictor := part("WR-38", "Restrictor, 3/8 in", "Restrictors")
	restrictor.Line = &measure.Size{Line: measure.Tube, Unit: measure.Inch, Num: big.NewRat(3, 8), Text: "3/8 in"}
	bolt, bracket := part("WB-12", "Bolt M12", ""), part("WB-7", "Bracket", "")
	kit := part("WK-9", "Steering damper kit", "Kits")
	bag := part("WK-1", "Bag of bolts", "Kits")
	bag.Contents = []model.Component{{Part: bolt, Quantity: 4}}
	kit.Contents = []model.Component{{Part: bracket, Quantity: 1}, {Part: bag, Quantity: 2}}
	unsettled := part("WX-666", "Bar of two minds", "Bars")
	cat.Parts = []*model.Part{old, newer, newest, restrictor, kit, bag, bracket, bolt, unsettled}
	for _, p := range cat.Parts {
		p.Picture.Name = secret
	}
	cat.References = []*model.Reference{
		{Number: "90-4411", Part: newest, Source: "Tarn Chassis", Kind: "original", Note: secret},
		{Number: "D 77 X", Part: newest, Source: "Otterby", Kind: "other", Note: secret},
	}
	hot := &model.Caution{Key: secret, Text: "Let the line cool before you cut it.", Level: "danger"}
	cat.Cautions = []*model.Caution{hot}
	cat.Vehicles = []*model.Vehicles{{Note: secret}}
	cat.Acceptances = []*model.Acceptance{{Code: secret, Reason: secret, By: secret}}
	cat.Fitments = []*model.Fitment{{}}
	cat.Rules = []*model.Rule{
		{Part: old, Effect: model.Forbid, Reason: "It strikes the beam."},
		{Family: "Dampers", With: kit, Effect: model.Require, Reason: "The mount is shared."},
		{Part: restrictor, Family: "Restrictors", Effect: model.Care, Reason: "Keep the arrow towards the spring."},
	}

	n := big.NewInt
	answer := func(p *model.Position, cases ...decide.Case) *decide.Answer {
		for i := range cases {
			cases[i].Class = i
		}
		return &decide.Answer{Position: p, Exact: true, Configurations: n(int64(len(cases))), Cases: cases, Classes: len(cases)}
	}
	cells := []*model.FitCell{{Notes: model.NotesOf(model.Note{Text: secret})}}
	years := func(from, to int, ts ...model.TraitSet) model.Box {
		return model.Box{Years: []model.Span{{From: from, To: to}}, Traits: ts}
	}
	is := func(t *model.Trait, values ...int) model.TraitSet {
		return model.TraitSet{Trait: t, Values: set(values...)}
	}
	g := &decide.Guide{Platform: heron, Configurations: n(90), OnTheRoad: big.NewRat(4321987, 1),
		Traits: []model.TraitSet{
			{Trait: front, Values: set(0, 1, 2)}, {Trait: levelling, Values: set(0, 1)}, {Trait: line, Values: set(0, 1, 2)},
			{Trait: lift, Values: set(0, 1)}, {Trait: tee, Values: set(1)},
		},
		Answers: []*decide.Answer{
			answer(damper,
				decide.Case{Where: years(2004, 2006, is(front, 0, 1, 3)), Outcome: model.Fitted, Quantity: 2, Cells: cells,
					Alternatives: []model.Alternative{one(2, newest), one(2, newer)}, Notes: []model.Note{{Text: "Remove the wheel first."}, {Caution: hot}}},
				decide.Case{Where: years(2004, 2006, is(front, 2)), Outcome: model.None, Quantity: 2, Cells: cells, Texts: []string{"Leaf springs damp themselves."}},
				decide.Case{Where: years(2007, 2011), Outcome: model.Planned, Quantity: 2, Cells: cells, Texts: []string{secret}, Notes: []model.Note{{Text: secret}}}),
			answer(left,
				decide.Case{Where: model.Box{Traits: []model.TraitSet{is(line, 1)}}, Outcome: model.Fitted, Quantity: 1, Alternatives: []model.Alternative{one(1, restrictor)}},
				decide.Case{Where: model.Box{Traits: []model.TraitSet{is(line, 0)}}, Outcome: model.Ask, Quantity: 1, Texts: []string{"Measure the tube."}},
				decide.Case{Where: model.Box{Traits: []model.TraitSet{is(line, 2)}}, Outcome: model.Gap, Quantity: 1}),
			answer(right, decide.Case{Outcome: model.Fitted, Quantity: 1, With: left}),
			answer(bar,
				decide.Case{Where: years(2004, 2006), Outcome: model.Fitted, Unsettled: true, Quantity: 1, Cells: cells,
					Alternatives: []model.Alternative{one(1, unsettled)}, Texts: []string{secret}, Notes: []model.Note{{Text: secret}}},
				decide.Case{Where: years(2007, 2011), Outcome: model.Conflict, Unsettled: true, Cells: cells, Texts: []string{secret}, Notes: []model.Note{{Text: secret}}}),
			{Position: crank, Exact: false},
			answer(steering,
				decide.Case{Where: years(2004, 2004, is(front, 0), is(levelling, 0), is(line, 0), is(lift, 1)), Outcome: model.Fitted, Quantity: 1,
					Alternatives: []model.Alternative{{{Part: kit, Quantity: 1}, {Part: newest, Quantity: 1}}}}),
			answer(nowhere),
		},
		Rules: []decide.RuleUse{
			{Rule: cat.Rules[0], Where: []model.Box{years(2004, 2006, is(front, 0)), years(2010, 2011)}},
			{Rule: cat.Rules[1]}, {Rule: cat.Rules[2], Where: []model.Box{{}}},
		},
	}
	cat.Complaints = []*model.Complaint{
		{Name: "rocks about", Position: damper, Helps: "Ends the rocking.", Check: "Tyre pressures on both sides.", Source: "Wren sheet 4"},
		{Name: "rocks about", Family: "Restrictors", Helps: "Slows the air.", Check: "The lines, for leaks."},
		{Name: "clatters", Position: steering, Helps: "Holds the joint."}}
	cat.Inspections = []*model.Inspection{{Look: "The welds of the arm", Position: damper, Level: "danger", Why: "They crack.", Source: "Wren sheet 5"}, {Look: "The plate", Level: "note"}}
	g.Complaints = []decide.ComplaintUse{
		{Row: cat.Complaints[0], Places: []decide.PlaceUse{{Position: damper, Where: []model.Box{years(2004, 2006)}}}},
		{Row: cat.Complaints[1], Where: []model.Box{years(2004, 2006, is(front, 0))}, Places: []decide.PlaceUse{{Position: left}}},
		{Row: cat.Complaints[2]}}
	g.Inspections = []decide.InspectionUse{{Row: cat.Inspections[0], Where: []model.Box{years(2004, 2006, is(front, 0))}}, {Row: cat.Inspections[1]}}
	// What is asked: year, front suspension, front air line; the lift axle cannot be seen.
	g.Finder = decide.Finder{Order: []int{0, 1, 3}, Effort: []int{2, 1, 1, 1, 0, 1}}
	g.Vehicles = []model.Box{years(2004, 2006, is(front, 0, 1)), {Traits: []model.TraitSet{is(front, 2), is(line, 0, 2)}}}
	end := func(classes ...int) *decide.Tree { return &decide.Tree{Trait: -1, Classes: classes} }
	ask := func(trait int, ways ...decide.Branch) *decide.Tree { return &decide.Tree{Trait: trait, Branches: ways} }
	for i, tree := range []*decide.Tree{
		ask(0, decide.Branch{Values: values(0, 1, 2), Next: ask(1, decide.Branch{Values: values(0, 1), Next: end(0)}, decide.Branch{Values: values(2), Next: end(1)})},
			decide.Branch{Values: values(3, 4, 5, 6), Next: end(2)}),
		ask(3, decide.Branch{Values: values(0), Next: end(1)}, decide.Branch{Values: values(1), Next: end(0)}, decide.Branch{Values: values(2), Next: end(2)}),
		end(0), end(0), nil,
		ask(1, decide.Branch{Values: values(0), Next: end(0, 1)}, decide.Branch{Values: values(1, 2), Next: end(1)}),
	} {
		g.Answers[i].Questions = decide.Questions{Tree: tree, Exact: true}
	}
	return &sample{Cat: cat, Guides: []*decide.Guide{g, {Platform: wren, Configurations: n(0)}}}
}

// pages makes all pages of the sample.
func (s *sample) pages(t testing.TB, o guide.Options) map[string]string {
	t.Helper()
	out, _ := s.dated(t, o)
	return out
}

// dated gives the pages, and since when each says what it says.
func (s *sample) dated(t testing.TB, o guide.Options) (map[string]string, []address.Dated) {
	t.Helper()
	out := map[string]string{}
	o.Pictures = s.pictures
	p, err := written(s.Cat, s.Guides, o, func(name string, data []byte) error {
		require.NotContains(t, out, name, "written twice")
		out[name] = string(data)
		return nil
	})
	require.NoError(t, err)
	return out, p.Dates()
}

// pages makes all pages, one at a time, in a fixed order: what Writer.Start makes, the
// platforms and the parts as the catalogue has them, what Writer.Finish makes. guides
// holds one guide per platform.
func pages(cat *model.Catalogue, guides []*decide.Guide, o guide.Options, emit guide.Emit) error {
	_, err := written(cat, guides, o, emit)
	return err
}

func written(cat *model.Catalogue, guides []*decide.Guide, o guide.Options, emit guide.Emit) (*guide.Writer, error) {
	p, err := guide.New(context.Background(), cat, o, emit)
	if err != nil {
		return nil, err
	}
	offers := offering.New(cat, "")
	defer offers.Close()
	if err := p.Start(); err != nil {
		return nil, err
	}
	for _, g := range guides {
		if err := p.Platform(g); err != nil {
			return nil, err
		}
		if err := offers.Add(g); err != nil {
			return nil, err
		}
	}
	for _, part := range cat.Parts {
		list, err := offers.Of(part)
		if err != nil {
			return nil, err
		}
		rules, err := offers.Rules(part)
		if err != nil {
			return nil, err
		}
		against, err := offers.Against(part)
		if err != nil {
			return nil, err
		}
		if err := p.Part(part, list, rules, against); err != nil {
			return nil, err
		}
	}
	return p, p.Finish()
}
