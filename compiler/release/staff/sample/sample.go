// Package sample is a catalogue for the tests of what is written of catalogues: every field of
// the model is used, and whatever the world must not see says so.
package sample

import (
	"math/big"

	"ferrule/compiler/finding"
	"ferrule/compiler/formula"
	"ferrule/compiler/judge/decide"
	"ferrule/compiler/line"
	"ferrule/compiler/measure"
	"ferrule/compiler/model"
	"ferrule/compiler/space"
	"ferrule/sheets/cell"
)

// Secret stands in every text that only the staff may read.
const Secret = "SECRET"

// Sample is a catalogue that uses every field of the model, with the guide of its first
// platform, of two.
type Sample struct {
	Catalogue *model.Catalogue   // all that there is once
	Guide     *decide.Guide      // of its first platform
	Findings  []*finding.Finding // one of each form
}

// places gives cells of the sample's only sheet.
type places struct{ sheet *cell.Sheet }

func (p places) at(row, col int32) cell.Place {
	return cell.Place{Sheet: p.sheet, Pos: cell.Pos{Row: row, Col: col}}
}

// serialEnd is the greatest serial number: a range to it has no end.
const serialEnd = 999_999_999_999_999

func set(values ...int) space.Set {
	s := space.Set{0}
	for _, v := range values {
		s[0] |= 1 << v
	}
	return s
}

// calculation is a row of a Calculated sheet.
func (p places) calculation() *model.Calculated {
	names := formula.NewNames()
	names.Add(formula.Name{Text: "Stroke", Dim: measure.Dimension{Length: 1}})
	f, err := formula.Parse("Stroke - 20 mm", names, measure.Options{})
	if err != nil {
		panic(err)
	}
	return &model.Calculated{Text: f.Text, Formula: f, Unit: measure.Millimetre, Family: "dampers", Source: "by definition", Note: Secret, At: p.at(26, 1)}
}

// New makes the sample anew.
func New() *Sample {
	in := places{&cell.Sheet{File: Secret + ".xlsx", Name: Secret}}
	c := &model.Catalogue{Settings: model.Settings{Title: "Ride <parts> & more", Publisher: "Quillon",
		Release: "R1", BaseURL: "https://example.test/", Contact: "ask@example.test", Millimetres: true, DecimalComma: true}}
	h7 := &model.Platform{Index: 0, Name: "H7", Years: []int{1998, 1999, 2001}, Maker: "Varnholt", Summary: "coach",
		Tell: "plate by the door", Picture: model.Picture{Name: Secret}, Called: []model.Called{{Name: "TB40"}}, At: in.at(2, 1)}
	h9 := &model.Platform{Index: 1, Name: "H/9", Years: []int{2005}, At: in.at(3, 1)}
	c.Platforms = []*model.Platform{h7, h9}
	c.YearCalled = []model.Called{{Name: "MY"}}
	c.YearTell = []model.Tell{{Text: "tenth sign"}, {Platform: h9, Text: "stamped"}}

	susp := &model.Trait{Index: 0, Name: "Z suspension", Question: "which?", Effort: 1, Picture: model.Picture{Name: Secret}, At: in.at(4, 1),
		Tell:   []model.Tell{{Text: "look under"}, {Platform: h7, Text: "look behind the wheel", Effort: 3, Picture: model.Picture{Name: Secret}}},
		Called: []model.Called{{Name: "springs"}},
		Values: []*model.Value{{Name: "Air beam", Called: []model.Called{{Name: "air"}, {Name: "bellows", Platform: h7}}, At: in.at(4, 2), Picture: model.Picture{Name: Secret}, Tell: []model.Tell{{Text: "a bellows"}}},
			{Name: "Twin arm", At: in.at(5, 2)}}}
	pipe := &model.Trait{Index: 1, Name: "A line", Kind: model.Size, Effort: 2, At: in.at(6, 1),
		Values: []*model.Value{{Name: "1/2 in", Size: measure.Size{Num: big.NewRat(1, 2), Unit: measure.Inch, Text: "1/2 in"}}}}
	plate := &model.Trait{Index: 2, Name: "Plate", Kind: model.Serial, Effort: 1, At: in.at(30, 1), Extents: []model.Extent{
		{Values: line.SetOf(line.Range{From: 100, To: 999}, line.Range{Letters: "A", From: 1, To: 50}), At: in.at(30, 2)},
		{Platform: h9, Values: line.SetOf(line.Range{From: 7, To: 9}), At: in.at(31, 2)}}}
	c.Traits = []*model.Trait{susp, pipe, plate}
	any := model.TraitSet{Trait: plate, Values: set(), Line: &model.Line{Not: true}}
	late := model.TraitSet{Trait: plate, Values: set(0), Line: &model.Line{Ranges: line.SetOf(line.Range{From: 500, To: serialEnd}, line.Range{Letters: "A", From: 0, To: 9})}}
	c.Breaks = []*model.Break{{Value: model.TraitSet{Trait: susp, Values: set(1)}, When: model.When{Platforms: []*model.Platform{h7}, Traits: []model.TraitSet{late}},
		Source: Secret, Note: Secret, At: in.at(32, 3)},
		{Value: model.TraitSet{Trait: plate, Values: set(), Line: &model.Line{Not: true, Ranges: line.SetOf(line.Range{From: 100, To: 100})}}, When: model.When{Years: &model.Years{Spans: []model.Span{{From: 2000, To: model.LastYear}}}}, At: in.at(33, 3)}}

	c.Vehicles = []*model.Vehicles{
		{When: model.When{Platforms: []*model.Platform{h7, h9}, Traits: []model.TraitSet{{Trait: susp, Values: set(0, 2)}, {Trait: pipe, Values: set(1)}, any}},
			Road: model.Number{Rat: big.NewRat(100, 1)}, Note: Secret, At: in.at(7, 1), RoadAt: in.at(7, 2)},
		{When: model.When{Platforms: []*model.Platform{h7}, Years: &model.Years{Spans: []model.Span{{From: 1999, To: model.LastYear}}},
			Traits: []model.TraitSet{{Trait: susp, Values: set(1)}, {Trait: pipe, Values: set(0)}, late}}, At: in.at(8, 1)},
		{When: model.When{SetAside: true}, At: in.at(9, 1)},
	}

	front := &model.Position{Index: 0, Name: "Front damper", Axle: "front", Side: "left", Summary: "by the wheel", Picture: model.Picture{Name: Secret}, At: in.at(10, 1)}
	rear := &model.Position{Index: 1, Name: "Rear damper", Coverage: model.Optional, Pair: front, At: in.at(11, 1)}
	front.Rows = []*model.PositionRow{
		{Position: front, Quantity: 2, AirLine: pipe, At: in.at(10, 1), LineAt: in.at(10, 2), When: model.When{Years: &model.Years{Not: true, Spans: []model.Span{{From: 1998, To: 1998}}}}},
		{Position: front, Quantity: 4, At: in.at(12, 1)}}
	rear.Rows = []*model.PositionRow{{Position: rear, Quantity: 1, At: in.at(11, 1)}}
	c.Positions = []*model.Position{front, rear}

	care := &model.Caution{Key: "props", Text: "hold it by stands", Level: "danger", At: in.at(13, 1)}
	plain := &model.Caution{Key: "plain", Text: "wear gloves", At: in.at(14, 1)}
	c.Cautions = []*model.Caution{care, plain}

	room := in.calculation()
	c.Figures = []*model.Figure{{Name: "Room", Computed: []*model.Calculated{room}}}
	room.Figure = c.Figures[0]
	p1 := &model.Part{Number: "QX-1", Name: "damper", Family: "dampers", Summary: "a damper", Picture: model.Picture{Name: Secret}, Listed: true, Known: true,
		Line: &measure.Size{Text: "1/2 in"}, Cautions: []model.Note{{Caution: care}, {Text: "heavy"}},
		Properties: []model.Property{
			{Name: "Stroke", Unit: "mm", Text: "120", Quantity: quantity("120", measure.Millimetre), Public: true, At: in.at(15, 3)},
			{Name: "Torque", Text: "60-65.5 ft-lb", Quantity: quantity("60-65.5 ft-lb", measure.NoUnit), Public: true, At: in.at(15, 8)},
			{Name: "Colour", Text: "grey", Public: true, At: in.at(15, 9)},
			{Name: "Room", Unit: "mm", Text: "100", Quantity: measure.New(big.NewRat(100, 1), big.NewRat(100, 1), measure.Millimetre), Public: true, At: in.at(26, 1), By: room},
			{Name: Secret, Text: Secret, At: in.at(15, 10)}},
		At: in.at(15, 1), StatusAt: in.at(15, 4), LineAt: in.at(15, 5), ReplacedAt: in.at(15, 6), FamilyAt: in.at(15, 7)}
	old := &model.Part{Number: "QX-0", Status: model.Superseded, Listed: true, Known: true, At: in.at(16, 1),
		ReplacedBy: &model.Fits{Outcome: model.Fitted, Alternatives: []model.Alternative{{{Part: p1}}}}}
	soon := &model.Part{Number: "QX-2", Status: model.Withdrawn, Listed: true, Known: true, At: in.at(17, 1),
		ReplacedBy: &model.Fits{Outcome: model.Planned, Text: Secret}}
	kit := &model.Part{Number: "K-1", Known: true, At: in.at(18, 1), Contents: []model.Component{{Part: p1, Quantity: 2, At: in.at(18, 2)}}}
	ghost := &model.Part{Number: "QX-9", At: in.at(19, 1)}
	c.Parts = []*model.Part{p1, old, soon, kit}
	c.References = []*model.Reference{{Number: "77", Part: p1, Source: "Brell", Kind: "former", Note: Secret, At: in.at(20, 1)}}
	c.SizeRows = []*model.SizeRow{{Row: measure.Row{System: "ours", Size: measure.Size{Unit: measure.Millimetre, Num: big.NewRat(8, 1), Wall: big.NewRat(5, 4)}, Source: Secret}, Outside: "8 mm", Within: "0.1 mm", Wall: "1.25 mm", At: in.at(24, 2)}}

	rule := &model.Rule{Part: p1, Family: "dampers", With: kit, Effect: model.Require, Reason: "they touch", At: in.at(21, 1), PartAt: in.at(21, 1), WithAt: in.at(21, 2)}
	everywhere := &model.Rule{Part: old, Effect: model.Care, Reason: "stiff", At: in.at(22, 1)}
	c.Rules = []*model.Rule{rule, everywhere}
	travel := &model.Fact{Name: "Travel"}
	c.Facts = []*model.Fact{travel}
	c.FactRows = []*model.FactRow{{When: model.When{Platforms: []*model.Platform{h7}}, Precedence: 2, Source: Secret, At: in.at(27, 1),
		Cells: []*model.FactCell{{Fact: travel, Text: Secret, Quantity: quantity("240-250 mm", measure.NoUnit), At: in.at(27, 2)}}}}
	c.Limits = []*model.Limit{{Name: Secret, Position: front, Family: "dampers", Left: Secret, Must: "at least", Right: Secret, Warning: true, Message: Secret, At: in.at(28, 1)},
		{Name: Secret, Left: Secret, Must: "equal to", Right: Secret, At: in.at(29, 1)}}
	c.Acceptances = []*model.Acceptance{{Code: string(finding.CoverageGap), Position: front, Part: p1, Reason: Secret, By: Secret, Until: "2027-01-01", At: in.at(23, 1), UntilAt: in.at(23, 2)}}

	row := &model.Fitment{When: model.When{Platforms: []*model.Platform{h7}, Years: &model.Years{Spans: []model.Span{{From: model.FirstYear, To: 1999}}}},
		Precedence: -1, Notes: model.NotesOf(model.Note{Text: "row note"}), At: in.at(24, 1)}
	fits := &model.Fits{Outcome: model.Fitted, Alternatives: []model.Alternative{{{Part: p1}, {Part: kit, Quantity: 3}}, {{Part: ghost}}}}
	fit := &model.FitCell{Row: row, Position: front, Fits: fits, Notes: model.NotesOf(model.Note{Text: "row note"}, model.Note{Caution: care}), At: in.at(24, 3)}
	plan := &model.FitCell{Row: row, Position: rear, Fits: &model.Fits{Outcome: model.Planned, Text: Secret}, At: in.at(24, 4)}
	with := &model.FitCell{Row: row, Position: rear, Fits: &model.Fits{Outcome: model.Fitted, With: front}, At: in.at(24, 5)}
	row.Cells = []*model.FitCell{fit, plan, with}
	c.Fitments = []*model.Fitment{row}

	huge, _ := new(big.Int).SetString("123456789012345678901234567890", 10)
	air := model.Box{Years: []model.Span{{From: 1998, To: 1999}}, Traits: []model.TraitSet{{Trait: susp, Values: set(0, 2)}}}
	filled := []model.Alternative{{{Part: p1, Quantity: 2}, {Part: kit, Quantity: 3}}, {{Part: ghost, Quantity: 2}}}
	g := &decide.Guide{Platform: h7, Configurations: huge, OnTheRoad: big.NewRat(621, 2),
		Traits: []model.TraitSet{{Trait: susp, Values: set(0, 1, 2)}, {Trait: pipe, Values: set(0)}},
		Rules:  []decide.RuleUse{{Rule: rule, Where: []model.Box{air}}, {Rule: everywhere}}}
	one := big.NewInt(1)
	g.Answers = []*decide.Answer{{Position: front, Exact: true, Configurations: huge, Cases: []decide.Case{
		{Where: air, Configurations: huge, Outcome: model.Fitted, Quantity: 2, Alternatives: filled,
			Notes: []model.Note{{Text: "row note"}, {Caution: care}, {Caution: plain}}, Cells: []*model.FitCell{fit}},
		{Where: model.Box{}, Configurations: one, Outcome: model.Fitted, Unsettled: true, Quantity: 2,
			Alternatives: []model.Alternative{{{Part: &model.Part{Number: Secret + "-4"}, Quantity: 1}}}, Texts: []string{Secret},
			Notes: []model.Note{{Text: Secret}}, Cells: []*model.FitCell{fit}},
		{Configurations: one, Outcome: model.Conflict, Unsettled: true, Quantity: 2, Notes: []model.Note{{Text: Secret}}, Cells: []*model.FitCell{fit, plan}},
		{Configurations: one, Outcome: model.None, Quantity: 2, Texts: []string{"no room", "no holes"}},
		{Configurations: one, Outcome: model.Ask, Quantity: 2, Texts: []string{"measure the bore"}},
		{Configurations: one, Outcome: model.Planned, Quantity: 2, Texts: []string{Secret}, Notes: []model.Note{{Text: Secret}}, Cells: []*model.FitCell{plan}},
		{Configurations: one, Outcome: model.Gap, Quantity: 2},
		{Configurations: one, Outcome: model.Fitted, With: rear, Quantity: 2, Cells: []*model.FitCell{with}},
	}}, {Position: rear}}
	front0 := g.Answers[0]
	front0.Counts[model.Fitted], front0.Counts[model.Gap] = huge, one
	front0.Road[model.Fitted], front0.Road[model.Gap] = big.NewRat(621, 2), big.NewRat(1, 3)

	return &Sample{c, g, in.findings(air, huge, susp, pipe)}
}

func (p places) findings(air model.Box, huge *big.Int, susp, pipe *model.Trait) []*finding.Finding {
	region := &finding.Region{Exact: true, Configurations: huge, OnTheRoad: big.NewRat(1, 3), Rest: big.NewInt(4),
		Where: []model.Box{air, {}}, Example: &model.Example{Year: 1998, Traits: []model.TraitValue{{Trait: susp, Value: 0}, {Trait: pipe, Value: 1}}}}
	return []*finding.Finding{
		{Code: finding.CoverageGap, Severity: finding.Error, Message: `"<b>" & more`, Platform: "H7", Position: "Front damper", Part: "QX-1",
			Region: finding.Pack(region), Cells: []finding.Cell{{Place: p.at(10, 1), Note: "declared here"}, {Place: cell.Place{Sheet: p.sheet}},
				{Place: cell.Place{Sheet: &cell.Sheet{File: "a.xlsx"}}}, {}}, Fix: "fill it"},
		{Code: finding.TooIrregular, Severity: finding.Error, Message: "too many", Platform: "H7",
			Region: finding.Pack(&finding.Region{Example: region.Example})},
		{Code: finding.PartUnused, Severity: finding.Note, Message: "nothing offers it"},
		{Code: finding.SizeUnusual, Severity: finding.Warning, Message: "odd"},
		{Code: finding.CoverageGap, Severity: finding.Error, Message: "known", Platform: "H7", Region: finding.Pack(&finding.Region{Exact: true,
			Configurations: big.NewInt(1), OnTheRoad: new(big.Rat), Where: []model.Box{{}}, Example: region.Example}),
			Accepted: &finding.Accepted{Reason: "rare", By: "N. N.", Cell: p.at(23, 1)}},
	}
}

func quantity(text string, unit measure.Unit) measure.Quantity {
	q, err := measure.ParseQuantityIn(text, unit, measure.Options{})
	if err != nil {
		panic(err)
	}
	return q
}
