package guide

import (
	"net/url"
	"strings"
	"sync"

	"ferrule/compiler/judge/decide"
	"ferrule/compiler/model"
	"ferrule/compiler/picture"
	"ferrule/out/address"
	"ferrule/out/news"
	"ferrule/out/slug"
)

// site is the catalogue with its addresses and cross-references, worked out once for
// all pages.
type site struct {
	*edition
	all      []*edition // its own among them; of the first the pages lie in the public folder itself
	cat      *model.Catalogue
	draft    bool
	fragment bool
	today    string // the day of the release; "" for none
	base     string // where the public folder is published, with a slash at its end; or ""
	book     *address.Book
	pictures *picture.Set // nil: none

	platformFiles map[*model.Platform]string // paths relative to the public folder
	partFiles     map[*model.Part]string     // no entry for a number that nothing declares
	places        map[*model.Position]string // anchors on platform pages
	traits        map[*model.Trait]string    // the same, and on the A to Z
	makers        []maker

	relations *model.Relations
	news      *news.News             // since an earlier release; nil: not asked for
	now       map[string]*model.Part // by number, for what an earlier release speaks of

	mu    sync.Mutex
	asked map[*model.Trait][]*model.Platform    // where a trait must be looked at
	shown map[*model.Platform][]*model.Position // that are on its page
	exist map[*model.Platform][]model.Span      // the years in which it has vehicles
	// offered is on which platforms a part is offered, by their numbers; no entry where they are many.
	offered map[*model.Part][]int
	lack    map[*model.Platform]lacks
}

// newSite prepares one of the editions of a catalogue.
func newSite(cat *model.Catalogue, o Options, all []*edition, own int) *site {
	s := &site{edition: all[own], all: all, cat: cat, draft: o.Draft, fragment: o.Fragment, today: o.Today, base: baseURL(cat.Settings.BaseURL),
		book: o.Addresses, relations: model.NewRelations(cat), asked: map[*model.Trait][]*model.Platform{}, shown: map[*model.Platform][]*model.Position{}, exist: map[*model.Platform][]model.Span{}, offered: map[*model.Part][]int{}, lack: map[*model.Platform]lacks{},
		news: o.News, pictures: o.Pictures, now: map[string]*model.Part{}}
	if s.book == nil {
		s.book = address.New(cat, nil)
	}
	s.platformFiles = map[*model.Platform]string{}
	for _, p := range cat.Platforms {
		s.platformFiles[p] = s.book.Platform(p)
	}
	s.partFiles = map[*model.Part]string{}
	for _, p := range cat.Parts {
		s.partFiles[p] = s.book.Part(p)
		s.now[p.Number] = p
	}
	s.places = anchors(cat.Positions, "at-", func(p *model.Position) string { return p.Name })
	s.traits = anchors(cat.Traits, "trait-", func(t *model.Trait) string { return t.Name })
	s.makers = s.makersOf()
	return s
}

// anchors gives every item a name of its own within a page, in lower case.
func anchors[T any](items []*T, before string, name func(*T) string) map[*T]string {
	names := make([]string, len(items))
	for i, item := range items {
		names[i] = name(item)
	}
	out := make(map[*T]string, len(items))
	for i, file := range slug.Names(names) {
		out[items[i]] = before + strings.ToLower(file)
	}
	return out
}

// remember keeps what others need to know of a guide: which positions are on its page, and
// in which years it has vehicles.
func (s *site) remember(g *decide.Guide) {
	var shown []*model.Position
	for _, a := range g.Answers {
		if exists(a) {
			shown = append(shown, a.Position)
		}
	}
	years, lack := g.Years(g.Exist().Possible(0)), lacksOf(g)
	s.mu.Lock()
	defer s.mu.Unlock()
	s.shown[g.Platform] = shown
	s.exist[g.Platform] = years
	s.lack[g.Platform] = lack
}

// lacks says what vehicles of a platform have to which a trait does not apply, once its guide is
// remembered.
func (s *site) lacks(p *model.Platform) lacks {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.lack[p]
}

// ask remembers which traits must be looked at on a platform.
func (s *site) ask(f *finder) {
	s.mu.Lock()
	defer s.mu.Unlock()
	for _, u := range f.guide.Traits {
		if f.speaksOf(u) {
			t := u.Trait.Declared()
			s.asked[t] = append(s.asked[t], f.guide.Platform)
		}
	}
}

func (s *site) indexFile() string { return "index.html" }

func (s *site) aToZFile() string { return "a-z.html" }

// baseURL gives the setting back if it is an address of the web with no more than a
// path, and nothing otherwise: it is the only text of a workbook that becomes part
// of an address.
func baseURL(setting string) string {
	u, err := url.Parse(strings.TrimSpace(setting))
	if err != nil || u.Hostname() == "" || u.User != nil || u.RawQuery != "" || u.ForceQuery || u.Fragment != "" || u.Opaque != "" {
		return ""
	}
	if u.Scheme != "https" && u.Scheme != "http" {
		return ""
	}
	return strings.TrimRight(u.String(), "/") + "/"
}
