package guide_test

import (
	"fmt"
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"

	"ferrule/compiler/judge/decide"
	"ferrule/compiler/measure"
	"ferrule/compiler/model"
	"ferrule/out/guide"
)

// section gives the section whose heading has an id.
func section(t *testing.T, root *html.Node, id string) *html.Node {
	t.Helper()
	return byID(t, root, id).Parent
}

func TestPart(t *testing.T) {
	root := parse(t, newSample().pages(t, guide.Options{})["parts/wd-120.html"])
	assert.Equal(t, "Part WD-120 Front damper, long travel", words(all(root, tag("h1"))[0]))
	assert.Equal(t, "Family Dampers Status current Extended length 25.295 in (642.5 mm) Tightening torque 65 lb·ft (88 N·m) Colour grey Lamp 24 V Stroke 10.413 in (264.5 mm) calculated: Extended length - Compressed <length> (By definition)", words(all(root, class("facts"))[0]))
	assert.Equal(t, "Warning The damper is under gas pressure: never open it.", words(all(root, class("cautions"))[0]))
	assert.Equal(t, "What it replaces WD-110 Front damper, firm superseded", words(section(t, root, "older")))
	assert.Equal(t, [][]string{
		{"Number", "Source", "Kind"},
		{"90-4411", "Tarn Chassis", "original equipment"},
		{"D 77 X", "Otterby", "other maker’s number"},
	}, rows(section(t, root, "numbers")))
	assert.Equal(t, [][]string{
		{"Place", "Vehicles", "Quantity", "How it is offered"},
		{"Front damper", "2004 to 2006 Front suspension: Air beam or Twin arm", "2", "first choice"},
		{"Steering damper", "2004 Front suspension: Air beam Levelling: Mechanical Front air line: 1/4 in Lift axle: does not apply", "1", "the only choice"},
	}, rows(section(t, root, "fits")))
}

func TestPartOfKits(t *testing.T) {
	root := parse(t, newSample().pages(t, guide.Options{})["parts/wb-12.html"])
	assert.Equal(t, "Kits that hold it WK-1 Bag of bolts (4 in the kit)", words(section(t, root, "kits")))
	got := rows(section(t, root, "fits"))
	require.Len(t, got, 2)
	assert.Equal(t, []string{"8", "the only choice, in the kit WK-9 Steering damper kit"}, got[1][2:], "two bags of four")

	kit := parse(t, newSample().pages(t, guide.Options{})["parts/wk-9.html"])
	assert.Equal(t, "What the kit holds 1 × WB-7 Bracket 2 × WK-1 Bag of bolts, each of: 4 × WB-12 Bolt M12", words(section(t, kit, "contents")))
}

func TestLineSize(t *testing.T) {
	s := newSample()
	root := parse(t, s.pages(t, guide.Options{})["parts/wr-38.html"])
	// 49 CFR 571.106 S4: plastic tubing is named by its outside diameter.
	assert.Contains(t, words(root), "Line size 3/8 in (9.525 mm), tube, outside diameter")

	s.Cat.Parts[3].Line = &measure.Size{Unit: measure.Millimetre, Num: big.NewRat(8, 1), Wall: big.NewRat(1, 1), Text: "8x1 mm"}
	root = parse(t, s.pages(t, guide.Options{})["parts/wr-38.html"])
	assert.Contains(t, words(root), "Line size 0.315 in (8x1 mm), tube, outside diameter x wall; 6 mm inside")
}

func TestBothSystems(t *testing.T) {
	s := newSample()
	s.Cat.Settings.Millimetres, s.Cat.Settings.DecimalComma = true, true
	for _, p := range s.Cat.Parts {
		if p.Number == "WR-38" {
			p.Line.Line = measure.Hose
		}
	}
	pages := s.pages(t, guide.Options{})
	facts := words(all(parse(t, pages["parts/wd-120.html"]), class("facts"))[0])
	assert.Contains(t, facts, "Extended length 642,5 mm (25,295 in) Tightening torque 88 N·m (65 lb·ft)")
	assert.Contains(t, words(parse(t, pages["parts/wr-38.html"])), "Line size 9,525 mm (3/8 in), hose, inside diameter")
}

func TestSizesOfVehiclesInBothSystems(t *testing.T) {
	s := newSample()
	line := s.Cat.Traits[2]
	for _, v := range line.Values {
		size, err := measure.ParseSize(v.Name, measure.Options{})
		require.NoError(t, err)
		v.Size = size
	}
	line.Values[1].Name = "3/8 in (9.525 mm)"
	page := words(parse(t, s.pages(t, guide.Options{})["platforms/heron-7.html"]))
	assert.Contains(t, page, "1/4 in (6.35 mm)")
	assert.Contains(t, page, "3/8 in (9.525 mm)")
	assert.NotContains(t, page, "(9.525 mm) (9.525 mm)", "what says both already")
}

func TestChainOfReplacements(t *testing.T) {
	s := newSample()
	root := parse(t, s.pages(t, guide.Options{})["parts/wd-100.html"])
	assert.Equal(t, "What replaces it In place of this part: 1 × WD-110 Front damper, firm superseded "+
		"In place of WD-110 Front damper, firm superseded : 1 × WD-120 Front damper, long travel", words(section(t, root, "newer")))
	assert.Contains(t, words(root), "Withdrawn: do not order or fit this part")
	assert.Contains(t, words(section(t, root, "fits")), "No guide offers it. That says nothing about whether it fits")

	for _, c := range []struct {
		by   model.Fits
		want string
	}{
		{model.Fits{Outcome: model.None, Text: "No chassis needs it."}, "Nothing replaces it: No chassis needs it."},
		{model.Fits{Outcome: model.Planned, Text: secret}, "A part is planned."},
		{model.Fits{Outcome: model.Ask}, "Find out first what your vehicle needs. Then ask " + whom + "."},
	} {
		s.Cat.Parts[0].ReplacedBy = &c.by
		root := parse(t, s.pages(t, guide.Options{})["parts/wd-100.html"])
		assert.Equal(t, "What replaces it In place of this part: "+c.want, words(section(t, root, "newer")))
	}
}

// A draft is made of a catalogue that still has errors: replacements and kits that
// lead back to themselves come to an end, and a number that nothing declares is shown
// without a page.
func TestDraftOfABrokenCatalogue(t *testing.T) {
	s := newSample()
	old, newest, bag := s.Cat.Parts[0], s.Cat.Parts[2], s.Cat.Parts[5]
	newest.ReplacedBy = &model.Fits{Outcome: model.Fitted, Alternatives: []model.Alternative{one(0, old)}}
	bag.Contents = append(bag.Contents, model.Component{Part: bag, Quantity: 1}, model.Component{Part: s.Cat.Parts[4], Quantity: 3})
	ghost := &model.Part{Number: "WZ-404"}
	s.Guides[0].Answers[0].Cases[0].Alternatives = []model.Alternative{one(1, ghost)}
	pages := s.pages(t, guide.Options{Draft: true})
	root := parse(t, pages["platforms/heron-7.html"])
	text := words(byID(t, root, "at-front-damper"))
	assert.Contains(t, text, "1 × WZ-404")
	assert.Empty(t, all(byID(t, root, "at-front-damper"), func(n *html.Node) bool { return n.Data == "a" && words(n) == "WZ-404" }))
	for name, page := range pages {
		if isPage(name) {
			assert.Contains(t, words(all(parse(t, page), class("banner"))[0]), "Draft: not for use on vehicles", name)
		}
	}
}

// Kits of kits can hold more parts than there are atoms: forty levels, each holding
// the next one twice over.
func TestDeepKits(t *testing.T) {
	s := newSample()
	var above []*model.Part
	for level := range 40 {
		var here []*model.Part
		for _, side := range []string{"a", "b"} {
			p := part(fmt.Sprintf("Q%d%s", level, side), "", "")
			here = append(here, p)
			for _, k := range above {
				k.Contents = append(k.Contents, model.Component{Part: p, Quantity: 9})
			}
		}
		s.Cat.Parts = append(s.Cat.Parts, here...)
		above = here
	}
	top := s.Cat.Parts[len(s.Cat.Parts)-80]
	s.Guides[0].Answers[0] = &decide.Answer{Position: s.Cat.Positions[0], Exact: true, Configurations: big.NewInt(1), Cases: []decide.Case{
		{Outcome: model.Fitted, Quantity: 1, Alternatives: []model.Alternative{one(1, top)}}}}
	pages := s.pages(t, guide.Options{}) // would never end if each way through the kits were gone
	got := rows(section(t, parse(t, pages["parts/q2a.html"]), "fits"))
	assert.Equal(t, "162", got[1][2], "nine in each of nine, by two ways")
	got = rows(section(t, parse(t, pages["parts/q39b.html"]), "fits"))
	assert.Equal(t, "see the kit", got[1][2])
}

// A caution that says nothing hides none behind it.
func TestCautionsBehindABlankOne(t *testing.T) {
	s := newSample()
	blank := &model.Caution{Key: "blank", Level: "danger"}
	s.Cat.Parts[0].Cautions = []model.Note{{Caution: blank}, {Text: "Let the gas out of it first."}}
	assert.Contains(t, s.pages(t, guide.Options{})["parts/wd-100.html"], "Let the gas out of it first.")
}
