package guide_test

import (
	"encoding/xml"
	"net/url"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/out/news"
)

// What workbooks say is text in a feed as well. RFC 4287: ids and links of entries are addresses that are
// whole (4.2.6, 4.2.7.1), an entry says when it was changed (4.2.15) and has one link to a page of a kind (4.1.2),
// and a feed was changed when the newest of its entries was, or later.
func TestFeedOfHostileTexts(t *testing.T) {
	s, o := worst(hostile)
	s.Cat.Settings.BaseURL = "https://guides.example/a&b"
	n := o.News
	n.Platforms = append(n.Platforms, &news.Platform{Name: hostile, Gone: true})
	pages, _ := release(t, s, "2027-03-01", nil, n)
	var f struct {
		XMLName xml.Name `xml:"http://www.w3.org/2005/Atom feed"`
		ID      string   `xml:"id"`
		Updated string   `xml:"updated"`
		Entries []entry  `xml:"entry"`
	}
	require.NoError(t, xml.Unmarshal([]byte(pages["changes.atom"]), &f))
	updated, err := time.Parse(time.RFC3339, f.Updated)
	require.NoError(t, err)
	require.Len(t, f.Entries, len(n.Platforms))
	ids := []string{f.ID}
	for _, e := range f.Entries {
		require.Len(t, e.Links, 1)
		ids = append(ids, e.Links[0].Href, e.ID[0])
		require.Len(t, e.Updated, 1)
		at, err := time.Parse(time.RFC3339, e.Updated[0])
		require.NoError(t, err)
		assert.False(t, at.After(updated), e.ID[0])
		require.Len(t, e.Title, 1)
		assert.NotContains(t, e.Title[0], "\u202e")
	}
	for _, id := range ids {
		u, err := url.Parse(id)
		require.NoError(t, err, id)
		assert.Equal(t, "guides.example", u.Host, id)
		assert.NotRegexp(t, `[\s<>"{}|\\^\x60]`, id, "RFC 3987: what no address holds")
	}
	assert.Contains(t, f.Entries[len(f.Entries)-1].Title[0], "<script>alert(1)</script>", "markup is text")
}
