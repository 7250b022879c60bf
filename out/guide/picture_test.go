package guide_test

import (
	"encoding/base64"
	"image"
	"image/color"
	"image/png"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"

	"ferrule/compiler/model"
	"ferrule/compiler/picture"
	"ferrule/out/guide"
	"ferrule/sheets/cell"
)

// illustrated is the sample with a picture wherever one may be named.
func illustrated(t *testing.T) *sample {
	t.Helper()
	s := newSample()
	dir := t.TempDir()
	m := image.NewRGBA(image.Rect(0, 0, 1200, 600))
	for x := range 600 {
		m.Set(x, x, color.RGBA{R: 200, A: 255})
	}
	f, err := os.Create(filepath.Join(dir, "wide.png"))
	require.NoError(t, err)
	require.NoError(t, png.Encode(f, m))
	require.NoError(t, f.Close())
	webp, err := base64.StdEncoding.DecodeString("UklGRiQAAABXRUJQVlA4IBgAAAAwAQCdASoBAAEAAwA0JaQAA3AA/vuUAAA=") // one pixel, from memory
	require.NoError(t, err)
	write(t, dir, map[string]string{
		"beam.svg": `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 320 200"><path d="M0 0h320v200z"/></svg>`,
		"grey.svg": `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 300 200"><path d="M0 0h300"/></svg>`,
		"dot.webp": string(webp),
	})
	at := cell.Place{Sheet: &cell.Sheet{File: "sample.xlsx"}}
	named := func(name string) model.Picture { return model.Picture{Name: name, At: at} }
	for _, p := range s.Cat.Positions {
		p.Picture.At = at
	}
	for _, p := range s.Cat.Parts {
		p.Picture.At = at
	}
	heron := s.Cat.Platforms[0]
	heron.Picture = named("wide.png")
	s.Cat.YearTell[0].Picture = named("grey.svg") // for all; the platform's own row has none
	front := s.Cat.Traits[0]
	front.Values[0].Tell[0].Picture = named("beam.svg")
	front.Values[1].Tell = append(front.Values[1].Tell, model.Tell{Platform: heron, Picture: named("grey.svg")}, model.Tell{Picture: named("beam.svg")})
	s.Cat.Positions[0].Picture = named("dot.webp")
	s.Cat.Parts[2].Picture = named("beam.svg")
	s.Cat.Parts[0].Picture = named("gone.png")
	s.pictures, err = picture.Load(t.Context(), s.Cat, picture.Options{Folder: func(string) string { return dir }, Workers: 2}, func(*picture.Fault) {})
	require.NoError(t, err)
	return s
}

func TestPictures(t *testing.T) {
	pages := illustrated(t).pages(t, guide.Options{})
	files := 0
	for name := range pages {
		if strings.HasPrefix(name, "pictures/") {
			assert.Regexp(t, `^pictures/[0-9a-f]{20}(-\d+)?\.(png|jpg|webp|svg)$`, name)
			files++
		}
	}
	assert.Equal(t, 5, files, "two widths, two drawings, and a dot; what is gone is left out")
	root := parse(t, pages["platforms/heron-7.html"])
	var got []string
	begin := all(root, class("early"))[0] // which shows those of its question as well
	for _, i := range all(root, tag("img")) {
		if slices.Contains(all(begin, tag("img")), i) {
			continue
		}
		assert.Contains(t, pages, strings.TrimPrefix(attr(i, "src"), "../"))
		for _, source := range strings.FieldsFunc(attr(i, "srcset"), func(r rune) bool { return r == ' ' || r == ',' }) {
			if strings.HasPrefix(source, "../") {
				assert.Contains(t, pages, strings.TrimPrefix(source, "../"))
			}
		}
		got = append(got, attr(i, "alt")+" "+attr(i, "width")+"x"+attr(i, "height"))
	}
	assert.Equal(t, []string{
		"Picture: Heron 7: The plate behind the driver's seat begins with HN7. 960x480", "Picture: Model year: Tenth character of the VIN. 300x200",
		"Picture: Front suspension Air beam: One air spring on each side of a solid beam. 320x200", "Picture: Front suspension Twin arm 300x200", "Picture: Front damper: Between beam and frame. 1x1",
	}, got, "the platform's own picture stands alone")
	assert.Len(t, all(parse(t, pages["parts/wd-120.html"]), tag("img")), 1)
	assert.Empty(t, all(parse(t, pages["parts/wd-100.html"]), tag("img")))
	checkStructure(t, pages)
}

// A name of a picture, and what it is of, are texts of a workbook like any other.
func TestHostilePictures(t *testing.T) {
	s := illustrated(t)
	poison(s, hostile)
	for name, page := range s.pages(t, guide.Options{}) {
		for _, i := range all(parse(t, page), func(n *html.Node) bool { return isPage(name) && n.Data == "img" }) {
			t.Errorf("%s: a picture whose name nothing answers to: %s", name, attr(i, "src"))
		}
	}
	s = illustrated(t)
	s.Cat.Platforms[0].Name = hostile
	page := s.pages(t, guide.Options{})
	for name := range page {
		if strings.HasPrefix(name, "platforms/title") {
			alt := attr(all(parse(t, page[name]), tag("img"))[0], "alt")
			assert.True(t, strings.HasPrefix(alt, "Picture: "+hostile[:60]), "%q", alt)
			assert.NotContains(t, alt, "\u202e", "a picture's words turn what follows round")
		}
	}
}
