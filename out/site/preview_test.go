package site_test

import (
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler"
	"ferrule/out/folder/found"
	"ferrule/out/site"
)

// A page that is made alone has the bytes that it has among all, whatever was made before it, and
// made a second time.
func TestPreviewIsWhatIsPublished(t *testing.T) {
	for _, name := range []string{"demo", "faulty"} {
		in := compiler.Input{Paths: []string{"../../testdata/" + name}}
		whole, err := compiler.Compile(t.Context(), in, compiler.Options{Today: "2026-06-01", Guides: true})
		require.NoError(t, err)
		dir := filepath.Join(t.TempDir(), "site")
		_, err = site.Publish(t.Context(), dir, nil, whole, site.Options{Draft: true})
		require.NoError(t, err)
		res, err := compiler.Compile(t.Context(), in, compiler.Options{Today: "2026-06-01"})
		require.NoError(t, err)
		p, err := site.NewPreview(t.Context(), res, site.Options{Draft: true})
		require.NoError(t, err)
		pages := map[string]int{}
		for file, want := range found.Files(t, dir) {
			path, public := strings.CutPrefix(file, "public/")
			if !public {
				continue
			}
			for range 2 {
				got, err := p.File(path)
				require.NoError(t, err)
				if got == nil {
					pages["together"]++
					continue
				}
				kind, _, _ := strings.Cut(path, "/")
				pages[kind]++
				assert.Equal(t, want, string(got), "%s: %s", name, path)
			}
		}
		assert.Equal(t, 2*len(res.Catalogue.Platforms), pages["platforms"])
		assert.Equal(t, 2*len(res.Catalogue.Parts), pages["parts"])
		assert.Equal(t, 2, pages["index.html"])
		assert.Positive(t, pages["together"], "the A to Z")
		got, err := p.File("../staff/findings.json")
		require.NoError(t, err)
		assert.Nil(t, got)
	}
}
