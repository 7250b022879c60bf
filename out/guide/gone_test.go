package guide_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/model"
	"ferrule/out/address"
	"ferrule/out/guide"
)

// Where a page was, a page says what became of it.
func TestGone(t *testing.T) {
	page := func(kind, name, label, status string, by ...[]address.Item) address.Page {
		folder := map[string]string{"part": "parts/", "platform": "platforms/"}[kind]
		return address.Page{Kind: kind, Name: name, Label: label, Status: status, Page: folder + name + ".html", Data: "parts/" + name + ".json", ReplacedBy: by}
	}
	earlier := &address.Register{
		Pages: []address.Page{page("part", "wd-100", "Front damper", "current")},
		Gone: []address.Page{
			page("part", "wd-80", "Front damper, soft", "superseded",
				[]address.Item{{Part: "WD-120", Quantity: 2}, {Part: "WB-7", Quantity: 1}}, []address.Item{{Part: "WD-85", Quantity: 1}}),
			page("part", "wd-70", "", "withdrawn"),
			page("part", "d77x", "Damper", "current"),
			{Kind: "part", Name: "WD-90", Label: "Damper", Page: "parts/wd-90.html", Data: "parts/wd-90.json", Now: "WD-120"},
			page("platform", "heron-6", "", ""),
			{Kind: "platform", Name: "Heron VII", Page: "platforms/heron-vii.html", Data: "guides/Heron-VII.json", Now: "Heron 7"},
			{Kind: "platform", Name: "Heron V", Page: "platforms/heron-v.html", Data: "guides/Heron-V.json", Now: "Heron VI"},
		},
	}
	s := newSample()
	s.Cat.References = append(s.Cat.References, &model.Reference{Number: "D77X", Part: s.Cat.Parts[2], Kind: "former"})
	pages := s.pages(t, guide.Options{Addresses: address.New(s.Cat, earlier)})
	require.Contains(t, words(parse(t, pages["parts/wd-100.html"])), "Where it fits", "a part that is there has its page")
	for name, want := range map[string]string{
		"parts/wd-80.html": "Part wd-80 Front damper, soft This part is no longer listed What replaces it " +
			"First choice 2 × WD-120 Front damper, long travel 1 × WB-7 Bracket or 1 × WD-85 Read in the guide of your platform whether it fits your vehicle. Look it up",
		"parts/wd-90.html":         "Part WD-90 Damper The number has changed: the part is now WD-120 Front damper, long travel. Look it up",
		"parts/wd-70.html":         "Part wd-70 Withdrawn: do not order or fit this part No part is known that replaces it: ask " + whom + ". Look it up",
		"parts/d77x.html":          "Part d77x Damper The number has changed: the part is now WD-120 Front damper, long travel. Look it up",
		"platforms/heron-vii.html": "Heron VII The platform has another name: it is now Heron 7. Look it up",
		"platforms/heron-v.html":   "Heron V There is no guide for this platform any more.",
		"platforms/heron-6.html":   "heron-6 There is no guide for this platform any more. That does not mean that nothing fits it: ask " + whom + ". Look it up",
	} {
		require.Contains(t, pages, name)
		root := parse(t, pages[name])
		assert.Contains(t, words(byID(t, root, "main")), want, name)
		assert.Contains(t, pages[name], `content="noindex"`, name)
		assert.NotContains(t, pages[name], "canonical", name)
		assert.NotContains(t, pages["sitemap.xml"], name)
	}
	assert.Contains(t, pages["parts/d77x.html"], `<meta http-equiv="refresh" content="0; url=../parts/wd-120.html">`)
	assert.Contains(t, pages["platforms/heron-vii.html"], `content="0; url=../platforms/heron-7.html"`)
	assert.NotContains(t, pages["parts/wd-80.html"], "refresh", "nobody is led to another part unasked")
	assert.NotContains(t, pages["parts/wd-90.html"], "refresh", "nobody has stated it, so it is read first")
	assert.Contains(t, pages["parts/wd-90.html"], `<a href="../parts/wd-120.html">WD-120`)
	checkLinks(t, withoutGone(pages, earlier), "https://guides.example/")
	checkStructure(t, pages)
}

// withoutGone leaves out pages that no page leads to.
func withoutGone(pages map[string]string, r *address.Register) map[string]string {
	out := map[string]string{}
	for name, page := range pages {
		out[name] = page
	}
	for _, p := range r.Gone {
		delete(out, p.Page)
	}
	return out
}
