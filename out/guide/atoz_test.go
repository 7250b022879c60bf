package guide_test

import (
	"cmp"
	"fmt"
	"path"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"

	"ferrule/compiler/model"
	"ferrule/out/guide"
)

func TestAToZ(t *testing.T) {
	s := newSample()
	s.Cat.Parts = append(s.Cat.Parts, part("--", "Nameless sign", ""), part("Ж-7", "", ""))
	root := parse(t, s.pages(t, guide.Options{})["a-z.html"])
	assert.Equal(t, "Numbers Others 9 D W Ж Others -- Nameless sign "+
		"9 90-4411: original number of Tarn Chassis, part WD-120 "+
		"D D 77 X: number of Otterby, part WD-120 "+
		"W WB-7 Bracket WB-12 Bolt M12 WD-100 Front damper withdrawn WD-110 Front damper, firm superseded WD-120 Front damper, long travel "+
		"WK-1 Bag of bolts WK-9 Steering damper kit WR-38 Restrictor, 3/8 in WX-666 Bar of two minds "+
		"Ж Ж-7", words(section(t, root, "numbers")))
	assert.Equal(t, "Platforms Heron 7 Tarn Chassis, 2004 to 2008, 2010 to 2011 Wren 2 2009 Makers Tarn Chassis", words(section(t, root, "platforms")))
	traits := words(section(t, root, "traits"))
	assert.Contains(t, traits, "Front suspension What carries the front axle? Air beam, Twin arm, Leaf or Coil. Heron 7")
	assert.Contains(t, traits, "Tee at air spring Yes or No. No guide asks for it.")
}

// Digits count as numbers, so that 7 comes before 12, and the order is a total one.
func TestNaturalOrder(t *testing.T) {
	want := []string{"", "0", "00", "7", "007", "12", "12a", "12b3", "12b20", "99999999999999999998", "99999999999999999999", "a", "a1", "a01", "a2", "ab", "ж"}
	for i, a := range want {
		for j, b := range want {
			assert.Equal(t, cmp.Compare(i, j), guide.Natural(a, b), "%q %q", a, b)
		}
	}
}

// Where there are many numbers each page holds a bounded number of them; together they
// hold every one, and each leads to its part.
func TestAToZOfMany(t *testing.T) {
	s := large(3, 15, 1800)
	for i := range 300 {
		s.Cat.References = append(s.Cat.References, &model.Reference{Number: fmt.Sprintf("%c%d", 'A'+i%20, i), Part: s.Cat.Parts[i], Kind: "former"})
	}
	pages := s.pages(t, guide.Options{})
	found := map[string]string{}
	lists := 0
	for name, page := range pages {
		if path.Dir(name) != "a-z" {
			continue
		}
		lists++
		root := parse(t, page)
		links := all(root, func(n *html.Node) bool { return n.Data == "a" && strings.Contains(attr(n, "href"), "parts/") })
		assert.LessOrEqual(t, len(links), 500, name)
		assert.Less(t, len(page), 100_000, name)
		for _, l := range links {
			found[words(l)] = path.Join("a-z", attr(l, "href"))
		}
	}
	require.Contains(t, pages, "a-z/l-4.html")
	require.NotContains(t, pages, "a-z/l-5.html")
	assert.Equal(t, 21+3, lists, "9, A to T, and three more of L")
	for i, p := range s.Cat.Parts {
		assert.Equal(t, fmt.Sprintf("parts/lx-%05d.html", i), found[p.Number])
	}
	for _, r := range s.Cat.References[2:] {
		assert.Equal(t, "parts/"+strings.ToLower(r.Part.Number)+".html", found[r.Number])
	}
	assert.Contains(t, words(parse(t, pages["a-z.html"])), "LX-00485 to LX-00984")
	checkLinks(t, pages, "https://guides.example/")
}

// A trait that very many guides ask for says how many.
func TestTraitOfManyPlatforms(t *testing.T) {
	page := large(61, 15, 1).pages(t, guide.Options{})["a-z.html"]
	assert.Contains(t, words(parse(t, page)), "Asked in the guides of 61 platforms.")
	page = large(60, 15, 1).pages(t, guide.Options{})["a-z.html"]
	assert.Contains(t, page, `href="platforms/platform-59.html#trait-front-suspension"`)
}
