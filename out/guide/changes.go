package guide

import (
	"path"
	"slices"
	"strings"

	"ferrule/compiler/model"
	"ferrule/compiler/release/compare"
	"ferrule/out/news"
	"ferrule/out/tongue"
)

// changesPage says on which platforms something has changed since an earlier release.
type changesPage struct {
	frame
	Since     string // what the earlier release was called; "" for no name
	Platforms []changedPlatform
	New       []link // platforms that the earlier release did not list
	Gone      []link // platforms that are no longer listed, to what stands in their place
	Renames   []renamed
}

// changedPlatform leads to what has changed on a platform.
type changedPlatform struct {
	Platform                    link // to the page of its changes
	Covered, Changed, Withdrawn int  // how many changes there are of each kind
	Vehicles                    bool // other vehicles are listed
}

// renamed is a name of the earlier release and what it is now.
type renamed struct {
	What, Trait, Old string
	New              link
}

// Sentence says the renaming, with verbs in the places of its names: the old one, of a value the trait's,
// and the new one.
func (r renamed) Sentence() string {
	switch r.What {
	case compare.Platform.String():
		return tongue.Key("The platform %s is called %s now.")
	case compare.Trait.String():
		return tongue.Key("The trait %s is called %s now.")
	case compare.Value.String():
		return tongue.Key("The value %s of %s is called %s now.")
	case compare.Position.String():
		return tongue.Key("The position %s is called %s now.")
	}
	return tongue.Key("The part %s is called %s now.")
}

// platformChangesPage is what has changed on one platform.
type platformChangesPage struct {
	frame
	Since              string
	Platform           link
	Groups             []changeGroup
	Asked, Unasked     []link // what vehicles are told apart by now, or no longer
	Appeared, Vanished *vehicleList
	Unknown            bool // not everything could be compared
}

// changeGroup is the changes of one kind.
type changeGroup struct {
	Kind string // covered, changed or withdrawn
	Rows []changeRow
}

type changeRow struct {
	Place       link
	Vehicles    vehicleList
	Before, Now said
}

// vehicleList says boxes of vehicles in words, one a line.
type vehicleList struct {
	All   bool // all that both releases list
	Boxes []string
	More  bool // there are others
}

// said is what a release says of a position.
type said struct {
	Kind    string // fitted, with, none, planned, ask, gap, unsettled or absent
	Choices []choice
	With    link
}

// boxesAtMost is how many boxes of vehicles a row lists.
const boxesAtMost = 20

const changesFile = "changes.html"

// changesOf gives the page of a platform's changes, "" where nothing has changed or it is
// new.
func (s *site) changesOf(p *model.Platform) string {
	if n := s.news.Find(p.Name); n == nil || n.New {
		return ""
	}
	return "changes/" + path.Base(s.platformFiles[p])
}

// writeChanges makes the pages that say what has changed, where that is known.
func (s *site) writeChanges(print func(page) error) error {
	if s.news == nil {
		return nil
	}
	list := &changesPage{frame: s.frame(changesFile, s.tongue.Say("What has changed")), Since: s.news.Since}
	list.Data = "changes.json"
	list.describe(s.tongue.Say("Which vehicles are newly covered, which parts have changed and which are withdrawn."))
	for _, r := range s.news.Renames {
		list.Renames = append(list.Renames, renamed{r.What, r.Trait, r.Old, link{r.New, s.hrefOf(r)}})
	}
	platforms := map[string]*model.Platform{}
	for _, p := range s.cat.Platforms {
		platforms[p.Name] = p
	}
	for _, n := range s.news.Platforms {
		p := platforms[n.Name]
		switch {
		case n.Gone || p == nil:
			list.Gone = append(list.Gone, link{n.Name, s.goneFile(n.Name)})
			continue
		case n.New:
			list.New = append(list.New, link{p.Name, s.platformFiles[p]})
			continue
		}
		list.Platforms = append(list.Platforms, changedPlatform{
			Platform: link{p.Name, s.changesOf(p)}, Covered: len(n.Covered), Changed: len(n.Changed), Withdrawn: len(n.Withdrawn),
			Vehicles: n.Appeared != nil || n.Vanished != nil,
		})
		if err := print(s.platformChanges(p, n)); err != nil {
			return err
		}
	}
	return print(list)
}

func (s *site) platformChanges(p *model.Platform, n *news.Platform) *platformChangesPage {
	out := &platformChangesPage{frame: s.frame(s.changesOf(p), s.tongue.Say("What has changed: %s", p.Name)), Since: s.news.Since,
		Asked: s.asking(p, n.Asked), Unasked: s.asking(p, n.Unasked), Unknown: n.Unknown}
	out.Platform = s.platformLink(p)
	out.Data = "changes.json"
	out.describe(s.tongue.Say("What has changed in the fitment guide of %s.", p.Name))
	if n.Appeared != nil {
		out.Appeared = s.vehicleWords(*n.Appeared)
	}
	if n.Vanished != nil {
		out.Vanished = s.vehicleWords(*n.Vanished)
	}
	for _, g := range []struct {
		kind    string
		changes []news.Change
	}{{"covered", n.Covered}, {"changed", n.Changed}, {"withdrawn", n.Withdrawn}} {
		if len(g.changes) == 0 {
			continue
		}
		rows := make([]changeRow, len(g.changes))
		for i, c := range g.changes {
			rows[i] = changeRow{s.placeNamed(p, c.Position), *s.vehicleWords(c.Vehicles), s.said(p, c.Before), s.said(p, c.Now)}
		}
		out.Groups = append(out.Groups, changeGroup{g.kind, rows})
	}
	return out
}

// placeNamed leads to a position by its name, if it is on the page of the platform.
func (s *site) placeNamed(p *model.Platform, name string) link {
	i := slices.IndexFunc(s.cat.Positions, func(pos *model.Position) bool { return pos.Name == name })
	if i < 0 || !slices.Contains(s.shown[p], s.cat.Positions[i]) {
		return link{Text: name}
	}
	return s.placeOn(p, s.cat.Positions[i])
}

func (s *site) vehicleWords(v news.Vehicles) *vehicleList {
	out := &vehicleList{More: v.More || len(v.Where) > boxesAtMost}
	for _, b := range v.Where[:min(len(v.Where), boxesAtMost)] {
		if b.Years == nil && len(b.Traits) == 0 {
			return &vehicleList{All: true}
		}
		out.Boxes = append(out.Boxes, s.boxWords(b))
	}
	return out
}

// said puts what a release says into words. The parts and positions may be those of an
// earlier release.
func (s *site) said(p *model.Platform, a news.Answer) said {
	switch {
	case !a.Exists:
		return said{Kind: "absent"}
	case !a.Settled:
		return said{Kind: "unsettled"}
	case a.With != nil:
		return said{Kind: "with", With: s.placeNamed(p, a.With.Name)}
	case a.Outcome == model.Fitted:
		return said{Kind: "fitted", Choices: s.choices(a.Alternatives)}
	}
	return said{Kind: strings.ToLower(a.Outcome.String())}
}
