package guide

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"net/url"
	"strings"

	"ferrule/out/news"
)

// feedFile is the feed of changes, in the format of RFC 4287 (Atom).
const feedFile = "changes.atom"

// feed is an Atom feed. Its elements and their order are ours; what must be there is the RFC's
// section 4.
type feed struct {
	XMLName xml.Name    `xml:"http://www.w3.org/2005/Atom feed"`
	Lang    string      `xml:"xml:lang,attr"` // of all texts in it
	ID      string      `xml:"id"`
	Title   string      `xml:"title"`
	Updated string      `xml:"updated"`
	Author  *feedAuthor `xml:"author"`
	Links   []feedLink  `xml:"link"`
	Entries []feedEntry `xml:"entry"`
}

type feedAuthor struct {
	Name string `xml:"name"`
}

type feedLink struct {
	Rel  string `xml:"rel,attr"`
	Type string `xml:"type,attr"`
	Href string `xml:"href,attr"`
}

type feedEntry struct {
	ID      string   `xml:"id"`
	Title   string   `xml:"title"`
	Updated string   `xml:"updated"`
	Link    feedLink `xml:"link"`
	Summary string   `xml:"summary"`
}

// hasFeed tells whether there is a feed: what has changed is known, since when, and where it will be.
func (s *site) hasFeed() bool {
	return s.news != nil && s.base != "" && !s.draft && s.today != ""
}

// writeFeed writes the changes since the earlier release, an entry for each platform.
func (s *site) writeFeed(d *dates, emit Emit) error {
	if !s.hasFeed() {
		return nil
	}
	f := &feed{Lang: s.tongue.Tag(), ID: s.base + feedFile, Title: plainTitle(s.tongue.Say("What has changed: %s", s.frame(changesFile, "").Catalogue)), Author: &feedAuthor{s.author()},
		Links: []feedLink{{"self", "application/atom+xml", s.base + feedFile}, {"alternate", "text/html", s.base + changesFile}}}
	for _, n := range s.news.Platforms {
		f.Entries = append(f.Entries, s.feedEntry(n))
	}
	d.take(feedFile, fmt.Append(nil, f.Entries))
	f.Updated = instant(d.now[feedFile].Since)
	for i := range f.Entries {
		f.Entries[i].ID += "#" + d.now[feedFile].Since // what is told of a platform another time is another entry
		f.Entries[i].Updated = f.Updated
	}
	var b bytes.Buffer
	b.WriteString(xml.Header)
	e := xml.NewEncoder(&b)
	e.Indent("", " ")
	if err := e.Encode(f); err != nil {
		return err
	}
	b.WriteByte('\n')
	return emit(feedFile, b.Bytes())
}

// instant is the beginning of a day, as RFC 3339 writes it.
func instant(day string) string { return day + "T00:00:00Z" }

// author names who answers for the feed.
func (s *site) author() string {
	if name := plainTitle(s.cat.Settings.Publisher); name != "" {
		return name
	}
	return s.tongue.Say("The publisher of this catalogue")
}

// feedEntry tells of one platform, with the page that tells more.
func (s *site) feedEntry(n *news.Platform) feedEntry {
	page, words := changesFile, s.changeWords(n)
	for _, p := range s.cat.Platforms {
		switch {
		case p.Name != n.Name:
		case n.New:
			page, words = s.platformFiles[p], s.tongue.Say("There is a guide for it now.")
		default:
			page = s.changesOf(p)
		}
	}
	if n.Gone {
		page, words = changesFile, s.tongue.Say("It is no longer listed.")
	}
	// A platform that is no longer listed has no page of its own that the entry could be known by.
	id := s.base + page
	if n.Gone {
		id += "?" + url.QueryEscape(n.Name)
	}
	return feedEntry{ID: id, Title: plainTitle(n.Name), Link: feedLink{"alternate", "text/html", s.base + page}, Summary: words}
}

// changeWords says how many places have changed, and how.
func (e *edition) changeWords(n *news.Platform) string {
	var out []string
	if count := len(n.Covered); count > 0 {
		out = append(out, e.tongue.Count("%d places are newly covered.", count))
	}
	if count := len(n.Changed); count > 0 {
		out = append(out, e.tongue.Count("Something else is said of %d places.", count))
	}
	if count := len(n.Withdrawn); count > 0 {
		out = append(out, e.tongue.Count("At %d places no part is offered any more.", count))
	}
	if n.Appeared != nil || n.Vanished != nil || len(n.Asked)+len(n.Unasked) > 0 {
		out = append(out, e.tongue.Say("Other vehicles are listed, or told apart otherwise."))
	}
	if n.Unknown || len(out) == 0 {
		out = append(out, e.tongue.Say("Not everything could be compared: read the guide."))
	}
	return strings.Join(out, " ")
}
