package guide_test

import (
	"path"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/out/guide"
)

// Without a base url the page for what is missing leads on from where it stands, in every language.
func TestMissingPageLeadsOn(t *testing.T) {
	for _, base := range []string{"", "https://guides.example/fit/"} {
		s := newSample()
		s.Cat.Settings.BaseURL = base
		speaking(s, func(string) string { return "" }, "fr")
		pages := s.pages(t, guide.Options{})
		for _, name := range []string{"404.html", "fr/404.html"} {
			links := 0
			for _, n := range all(parse(t, pages[name]), tag("a", "link", "script")) {
				href := attr(n, "href") + attr(n, "src")
				if href == "" || strings.HasPrefix(href, "#") || strings.Contains(href, "@") || strings.HasPrefix(href, "https:") {
					continue
				}
				file := path.Join(path.Dir(name), href)
				if base != "" {
					require.True(t, strings.HasPrefix(href, "/fit/"), "%s: %s", name, href)
					file = strings.TrimPrefix(href, "/fit/")
				}
				assert.NotEmpty(t, pages[file], "%s: %s", name, href)
				links++
			}
			assert.Greater(t, links, 5, name)
		}
	}
}
