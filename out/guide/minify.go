package guide

import (
	"path"

	"github.com/tdewolff/minify/v2"
	"github.com/tdewolff/minify/v2/css"
	"github.com/tdewolff/minify/v2/js"
)

// ours gives one of staticFiles as it goes out: scripts and style without comments and white space, two
// fifths of what a phone would load. Those of a theme are published as they are.
func ours(name string, fragment bool) []byte {
	text, err := static.ReadFile(name)
	if err != nil {
		panic("guide: what is embedded can be read: " + err.Error())
	}
	kind := map[string]string{".js": "text/javascript", ".css": "text/css"}[path.Ext(name)]
	if kind == "" {
		return text
	}
	if fragment && kind == "text/css" {
		text = scoped(text)
	}
	m := minify.New()
	m.Add("text/javascript", &js.Minifier{})
	m.Add("text/css", &css.Minifier{})
	small, err := m.Bytes(kind, text)
	if err != nil {
		panic("guide: what is embedded can be parsed: " + name + ": " + err.Error())
	}
	return small
}
