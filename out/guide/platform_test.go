package guide_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"

	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/out/guide"
)

const whom = "Wending Ride Parts (the parts desk, 555 0100)"

func TestPlacesSayEachKindOfAnswer(t *testing.T) {
	root := parse(t, newSample().pages(t, guide.Options{})["platforms/heron-7.html"])
	notSettled := "This is not settled. Order nothing by this guide: ask " + whom + "."
	for id, want := range map[string][][]string{
		"at-front-damper": {
			{"Years", "Front suspension", "What fits"},
			{"2004 to 2006", "Air beam or Twin arm",
				"First choice 2 × WD-120 Front damper, long travel or 2 × WD-110 Front damper, firm superseded " +
					"Danger Let the line cool before you cut it. Warning WD-120: The damper is under gas pressure: never open it. " +
					"Note Remove the wheel first. any Dampers: Only together with WK-9"},
			{"2004 to 2006", "Leaf", "Nothing is fitted here: Leaf springs damp themselves."},
			{"2007 to 2011", "any", "A part is planned."},
		},
		"at-restrictor-left": {
			{"Years", "Front air line", "What fits"},
			{"All", "3/8 in", "1 × WR-38 Restrictor, 3/8 in WR-38: Take care"},
			{"All", "1/4 in", "Find out first: Measure the tube. Then ask " + whom + "."},
			{"All", "does not apply", "Not listed: ask " + whom + "."},
		},
		"at-restrictor-right": {
			{"Years", "What fits"},
			{"All", "Supplied by the item at Restrictor left. Order nothing more for this place."},
		},
		"at-anti-roll-bar": {
			{"Years", "What fits"},
			{"2004 to 2006", notSettled},
			{"2007 to 2011", notSettled},
		},
		"at-bell-crank": {{"Years", "What fits"}, {"All", notSettled}},
		"at-steering-damper": {
			{"Years", "Vehicle", "What fits"},
			{"2004", "Front suspension: Air beam Levelling: Mechanical Front air line: 1/4 in Lift axle: does not apply",
				"1 × WK-9 Steering damper kit Kit of: 1 × WB-7 Bracket 2 × WK-1 Bag of bolts, each of: 4 × WB-12 Bolt M12 " +
					"1 × WD-120 Front damper, long travel Warning WD-120: The damper is under gas pressure: never open it. any Dampers: Only together with WK-9"},
		},
	} {
		assert.Equal(t, want, rows(byID(t, root, id)), id)
	}
}

func TestPlacesSayWhereTheyAre(t *testing.T) {
	root := parse(t, newSample().pages(t, guide.Options{})["platforms/heron-7.html"])
	spec := func(id string) string { return words(all(byID(t, root, id), class("spec"))[0]) }
	assert.Equal(t, "front axle, both sides a vehicle takes 2", spec("at-front-damper"))
	assert.Equal(t, "front axle, left opposite: Restrictor right a vehicle takes 1 air line: Front air line", spec("at-restrictor-left"))
	assert.Empty(t, all(root, func(n *html.Node) bool { return attr(n, "id") == "at-tag-damper" }), "a place that no vehicle has")
}

func TestQuantityThatDepends(t *testing.T) {
	s := newSample()
	damper := s.Guides[0].Answers[0]
	damper.Cases[0].Quantity = 4
	root := parse(t, s.pages(t, guide.Options{})["platforms/heron-7.html"])
	assert.Contains(t, words(byID(t, root, "at-front-damper")), "a vehicle takes 2 or 4")
}

func TestWhichVehicleIsIt(t *testing.T) {
	s := newSample()
	root := parse(t, s.pages(t, guide.Options{})["platforms/heron-7.html"])
	assert.Equal(t, "Is it Heron 7? Is it Heron 7? Rear-engined chassis of mobile libraries. The plate behind the driver's seat begins with HN7.", words(all(root, class("is"))[0]))
	var got []string
	for _, q := range all(root, class("question")) {
		got = append(got, words(q))
	}
	assert.Equal(t, []string{
		"Model year The model year of the chassis; that of the body is often later. On the plate, second line. " +
			"On chassis for North America the tenth character of the VIN, below in brackets, stands for the model year. " +
			"It comes round every 30 years, and the seventh character tells which round it is only on vehicles of up to 10 000 lb (4536 kg), so go by the years of this platform. " +
			"2004 (4) 2005 (5) 2006 (6) 2007 (7) 2008 (8) 2010 (A) 2011 (B) Decides: Front damper",
		"Front suspension What carries the front axle? Look in from the front, behind the bumper. " +
			"Air beam One air spring on each side of a solid beam. Twin arm Two arms, painted grey on this platform. " +
			"Leaf No hint is given: ask where you are not sure. Decides: Front damper and Steering damper",
		"Front air line 1/4 in 3/8 in Does not apply Decides: Restrictor left",
		"Levelling Mechanical A valve with air lines running to it. Electronic A sensor with only a wire harness.",
		"Lift axle Fitted Does not apply",
		"The same on each of these vehicles If yours differs, it is another vehicle: ask. Tee at air spring : No",
	}, got)

	other := parse(t, s.pages(t, guide.Options{})["platforms/wren-2.html"])
	assert.Contains(t, words(other), "Tenth character of the VIN.", "the text for all platforms where none is of its own")
	assert.Contains(t, words(other), "No place is listed for this platform: ask "+whom+".")
}

func TestRules(t *testing.T) {
	root := parse(t, newSample().pages(t, guide.Options{})["platforms/heron-7.html"])
	assert.Equal(t, [][]string{
		{"Part", "Rule", "Vehicles", "Reason", "Places"},
		{"WD-100 Front damper withdrawn", "Do not fit", "2004 to 2006 Front suspension: Air beam 2010 to 2011", "It strikes the beam.", "nothing of it is offered"},
		{"any of the family Dampers", "Only together with WK-9 Steering damper kit", "all vehicles of this platform", "The mount is shared.", "Front damper and Steering damper"},
		{"WR-38 Restrictor, 3/8 in (family Restrictors)", "Take care", "all vehicles of this platform", "Keep the arrow towards the spring.", "Restrictor left"},
	}, rows(all(root, class("rules"))[0]))
}

func TestRuleWithCompanyForbidden(t *testing.T) {
	s := newSample()
	s.Cat.Rules[0].With = s.Cat.Parts[4]
	root := parse(t, s.pages(t, guide.Options{})["platforms/heron-7.html"])
	assert.Equal(t, "Never together with WK-9 Steering damper kit", rows(all(root, class("rules"))[0])[1][1])
}

// A case that is not settled says nothing of parts, however it is marked.
func TestUnsettledShowsNoParts(t *testing.T) {
	for what, change := range map[string]func(*decide.Case){
		"marked":   func(c *decide.Case) { c.Unsettled = true },
		"conflict": func(c *decide.Case) { c.Outcome = model.Conflict },
	} {
		s := newSample()
		damper := s.Guides[0].Answers[0]
		damper.Cases = damper.Cases[:1]
		change(&damper.Cases[0])
		pages := s.pages(t, guide.Options{})
		place := byID(t, parse(t, pages["platforms/heron-7.html"]), "at-front-damper")
		text := words(place)
		for _, n := range []string{"WD-1", "gas pressure", "Remove the wheel", "Let the line cool"} {
			assert.NotContains(t, text, n, what)
		}
		assert.Contains(t, text, "not settled", what)
		assert.NotContains(t, words(parse(t, pages["parts/wd-120.html"])), "first choice", what)
	}
}

func TestAskingWithoutSettings(t *testing.T) {
	for _, c := range []struct{ publisher, contact, want string }{
		{"", "", "the publisher of this guide"}, {"Wending", "", "Wending"}, {"", "555 0100", "555 0100"},
	} {
		s := newSample()
		s.Cat.Settings.Publisher, s.Cat.Settings.Contact = c.publisher, c.contact
		root := parse(t, s.pages(t, guide.Options{})["platforms/heron-7.html"])
		require.Equal(t, "Not listed: ask "+c.want+".", rows(byID(t, root, "at-restrictor-left"))[3][2])
	}
}

// What is said of every choice of every row stands once above the table; what is said
// of some stays in its row.
func TestSharedCautions(t *testing.T) {
	at := func(change func(*decide.Answer, []*model.Part)) (above []string, cells [][]string) {
		s := newSample()
		damper := s.Guides[0].Answers[0]
		second := damper.Cases[0]
		second.Notes = nil
		damper.Cases[1] = second
		change(damper, s.Cat.Parts)
		place := byID(t, parse(t, s.pages(t, guide.Options{})["platforms/heron-7.html"]), "at-front-damper")
		for n := range all(place, class("lead"))[0].ChildNodes() {
			if n.Data == "ul" && attr(n, "class") == "cautions" {
				above = append(above, words(n))
			}
		}
		return above, rows(place)
	}
	const gas = "Warning The damper is under gas pressure: never open it."
	above, cells := at(func(_ *decide.Answer, parts []*model.Part) { parts[1].Cautions = parts[2].Cautions })
	assert.Equal(t, []string{gas}, above, "both dampers carry it")
	assert.NotContains(t, cells[1][2], "gas")
	assert.Contains(t, cells[1][2], "Danger Let the line cool")
	assert.NotContains(t, cells[2][2], "Danger")

	above, cells = at(func(*decide.Answer, []*model.Part) {})
	assert.Empty(t, above, "one of two choices carries it")
	assert.Contains(t, cells[2][2], "Warning WD-120: The damper")

	above, _ = at(func(a *decide.Answer, parts []*model.Part) {
		a.Cases[1].Alternatives = []model.Alternative{one(1, parts[4])}
	})
	assert.Empty(t, above, "one of two rows carries it")

	above, _ = at(func(a *decide.Answer, parts []*model.Part) {
		a.Cases[1].Alternatives = []model.Alternative{one(1, parts[4], parts[2])}
		a.Cases[0].Alternatives = []model.Alternative{one(2, parts[2])}
	})
	assert.Equal(t, []string{gas}, above, "beside another part it is still of the row's only choice")
}
