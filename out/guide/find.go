package guide

import (
	"encoding/json"
	"slices"
	"strings"

	"ferrule/compiler/model"
	"ferrule/out/address"
	"ferrule/out/offer"
	"ferrule/out/search"
)

// Kinds of what the search finds, in the order in which equals are listed.
const (
	kindPlatform = iota
	kindMaker
	kindTrait
	kindPart
	kindKit
	kindOriginal
	kindFormer
	kindOther
	kindPlace // of a platform; the script puts it together
)

// kindWords names the kinds as people read them.
func (e *edition) kindWords() []string {
	say := e.tongue.Say
	return []string{say("Platform"), say("Maker"), say("To look at"), say("Part"), say("Kit"),
		say("Original number"), say("Former number"), say("Other number"), say("Place")}
}

// writeIndex makes the search index.
func (s *site) writeIndex(emit Emit) error {
	places := make([]search.Place, len(s.cat.Positions))
	for i, p := range s.cat.Positions {
		places[i] = search.Place{Name: s.tr(p.Name), Own: p.Name, Anchor: s.places[p]}
	}
	return search.Write(s.kindWords(), places, s.findable(), emit)
}

// findable lists all that the search finds.
func (s *site) findable() []search.Entry {
	var out []search.Entry
	for _, p := range s.cat.Platforms {
		out = append(out, search.Entry{Kind: kindPlatform, Title: p.Name, Href: s.platformFiles[p],
			Note: listed(p.Maker, s.spans(s.exist[p]), s.alsoCalled(p.Called)), Words: p.Maker, Also: model.Names(p.Called, nil), More: s.platformFacts(p)})
	}
	for _, m := range s.makers {
		if m.Name != "" {
			out = append(out, search.Entry{Kind: kindMaker, Title: m.Name, Href: s.indexFile() + "#" + m.Anchor})
		}
	}
	for _, t := range s.cat.Traits {
		words := listed(s.valueNames(t)...)
		out = append(out, search.Entry{Kind: kindTrait, Title: s.tr(t.Name), Href: s.aToZFile() + "#" + s.traits[t], Note: words, Words: words, Also: s.namesOf(t)})
	}
	for _, p := range s.cat.Parts {
		kind := kindPart
		if p.Kit() {
			kind = kindKit
		}
		words := listed(s.tr(p.Name), s.tr(p.Family))
		out = append(out, search.Entry{Kind: kind, Title: p.Number, Href: s.partFiles[p], Note: listed(words, s.statusNow(p)), Words: words + " " + s.other(p.Name, p.Family), More: s.platformsOf(p)})
	}
	for _, r := range s.cat.References {
		if file := s.partFiles[r.Part]; file != "" && r.Number != "" {
			out = append(out, search.Entry{Kind: referenceKind(r), Title: r.Number, Href: file,
				Note: listed(r.Source, s.partName(r.Part), s.statusNow(r.Part)), Words: r.Source, More: s.platformsOf(r.Part)})
		}
	}
	return append(out, s.findableGone()...)
}

// findableGone lists what an earlier release had a page for, under the names that it had. A part
// under a new number is found as its former number.
func (s *site) findableGone() []search.Entry {
	var out []search.Entry
	successor := s.successors()
	for _, g := range s.book.Gone() {
		name, file := successor(g)
		switch {
		case g.Kind == address.KindPlatform && name != "":
			out = append(out, search.Entry{Kind: kindPlatform, Title: g.Name, Href: file, Note: s.tongue.Say("now %s", name)})
		case g.Kind == address.KindPlatform:
			out = append(out, search.Entry{Kind: kindPlatform, Title: g.Name, Href: g.Page, Note: s.tongue.Say("no longer listed")})
		case name == "":
			out = append(out, search.Entry{Kind: kindPart, Title: g.Name, Href: g.Page, Note: listed(g.Label, s.tongue.Say("no longer listed")), Words: g.Label})
		}
	}
	return out
}

// platformFacts is what the search knows of a platform: its number, the years in which it has
// vehicles, as pairs, and the numbers of the places that it has.
type platformFacts struct {
	number int
	years  []model.Span
	places []*model.Position
}

func (s *site) platformFacts(p *model.Platform) *platformFacts {
	return &platformFacts{p.Index, s.exist[p], s.shown[p]}
}

// MarshalJSON writes lists of numbers: the search reads thousands of them.
func (f *platformFacts) MarshalJSON() ([]byte, error) {
	years, places := [][2]int{}, []int{}
	for _, y := range f.years {
		years = append(years, [2]int{y.From, y.To})
	}
	for _, p := range f.places {
		places = append(places, p.Index)
	}
	return json.Marshal([]any{f.number, years, places})
}

// platformsOf numbers the platforms on which a part is offered; nil where they are too many to be
// told in the index.
func (s *site) platformsOf(p *model.Part) any {
	if on, known := s.offered[p]; known {
		return on
	}
	return nil
}

// offeredAtMost is how many platforms of a part the index names.
const offeredAtMost = 60

// rememberOffers keeps on which platforms a part is offered, for the search.
func (s *site) rememberOffers(p *model.Part, offers []offer.Offer) {
	on := []int{}
	for _, o := range offers {
		if len(on) == 0 || on[len(on)-1] != o.Platform.Index {
			on = append(on, o.Platform.Index)
		}
	}
	if len(on) > offeredAtMost {
		return
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	s.offered[p] = on
}

// statusNow says of a part that is not current what it is, and what has taken its place where
// that is one thing; "" for a current part.
func (e *edition) statusNow(p *model.Part) string {
	words := e.statusWord(p)
	_, ends := p.Replaced()
	if words == "" || len(ends) != 1 {
		return words
	}
	return e.tongue.Say("%s: now %s", words, ends[0].Number)
}

// listed joins what is not empty by commas.
func listed(words ...string) string {
	return strings.Join(slices.DeleteFunc(words, func(w string) bool { return w == "" }), ", ")
}

func referenceKind(r *model.Reference) int {
	switch r.Kind {
	case "original":
		return kindOriginal
	case "former":
		return kindFormer
	}
	return kindOther
}

// alsoCalled says what something is called besides, "" for nothing.
func (e *edition) alsoCalled(called []model.Called) string {
	names := model.Names(called, nil)
	if names == nil {
		return ""
	}
	return e.tongue.Say("also called %s", strings.Join(names, ", "))
}

// namesOf gives under what else a trait is found: what the workbook calls it, and what people do.
func (e *edition) namesOf(t *model.Trait) []string {
	out := calledOf(t)
	if own := e.other(t.Name); own != "" {
		out = append([]string{own}, out...)
	}
	return out
}

// other gives what texts read in the workbooks where a page shows another; "" where it does not.
func (e *edition) other(texts ...string) string {
	texts = slices.DeleteFunc(texts, func(text string) bool { return e.tr(text) == text })
	return strings.Join(texts, " ")
}

// calledOf gives what people call a trait and its values besides.
func calledOf(t *model.Trait) []string {
	out := model.Names(t.Called, nil)
	for _, v := range t.Values {
		out = append(out, model.Names(v.Called, nil)...)
	}
	return out
}
