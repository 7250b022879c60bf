package data

import (
	"io"

	"ferrule/compiler/model"
	"ferrule/compiler/wire"
	"ferrule/out/address"
	"ferrule/out/news"
)

// newsHead says between which releases.
type newsHead struct {
	Since   string       `json:"since,omitempty"`
	Release string       `json:"release,omitempty"`
	Renames []newsRename `json:"renames"`
}

type newsRename struct {
	What  string `json:"what"`
	Trait string `json:"trait,omitempty"`
	Old   string `json:"old"`
	New   string `json:"new"`
}

// newsPlatform is what has changed on one platform. Guide is left out where there is none
// any more.
type newsPlatform struct {
	Platform  string       `json:"platform"`
	Guide     string       `json:"guide,omitempty"`
	New       bool         `json:"new,omitempty"`
	Gone      bool         `json:"gone,omitempty"`
	Complete  *bool        `json:"complete,omitempty"` // false: not everything could be compared
	Asked     []string     `json:"asked,omitempty"`
	Unasked   []string     `json:"unasked,omitempty"`
	Appeared  *newsBoxes   `json:"appeared,omitempty"`
	Vanished  *newsBoxes   `json:"vanished,omitempty"`
	Covered   []newsChange `json:"covered,omitempty"`
	Changed   []newsChange `json:"changed,omitempty"`
	Withdrawn []newsChange `json:"withdrawn,omitempty"`
}

// newsBoxes are vehicles; More is written where there are others.
type newsBoxes struct {
	Where []wire.Box `json:"where"`
	More  bool       `json:"more,omitempty"`
}

type newsChange struct {
	Position string `json:"position"`
	newsBoxes
	Before newsAnswer `json:"before"`
	Now    newsAnswer `json:"now"`
}

// newsAnswer is what a release says. Without an outcome the position is not there.
type newsAnswer struct {
	Outcome      string        `json:"outcome,omitempty"`
	Settled      *bool         `json:"settled,omitempty"`
	Alternatives [][]wire.Item `json:"alternatives,omitempty"`
	With         string        `json:"with,omitempty"`
}

// PublicNews writes changes.json for the world: what has changed since an earlier release.
func PublicNews(w io.Writer, c *model.Catalogue, n *news.News, at *address.Book) error {
	guides := map[string]string{}
	for _, p := range c.Platforms {
		guides[p.Name] = at.PlatformData(p)
	}
	head := newsHead{n.Since, c.Settings.Release, wire.Each(n.Renames, func(r news.Rename) newsRename { return newsRename(r) })}
	return wire.WriteLists(w, head, wire.ListOf("platforms", n.Platforms, func(p *news.Platform) newsPlatform {
		return newsPlatform{p.Name, guides[p.Name], p.New, p.Gone, wire.No(p.Unknown), p.Asked, p.Unasked,
			newsVehicles(p.Appeared), newsVehicles(p.Vanished), newsChanges(p.Covered), newsChanges(p.Changed), newsChanges(p.Withdrawn)}
	}))
}

func newsVehicles(v *news.Vehicles) *newsBoxes {
	if v == nil {
		return nil
	}
	return &newsBoxes{wire.Boxes(v.Where), v.More}
}

func newsChanges(cs []news.Change) []newsChange {
	return wire.Each(cs, func(c news.Change) newsChange {
		return newsChange{c.Position, *newsVehicles(&c.Vehicles), newsAnswerOf(c.Before), newsAnswerOf(c.Now)}
	})
}

func newsAnswerOf(a news.Answer) newsAnswer {
	if !a.Exists {
		return newsAnswer{}
	}
	return newsAnswer{a.Outcome.String(), wire.No(!a.Settled), wire.Alternatives(a.Alternatives), wire.PositionName(a.With)}
}
