package picture

import (
	"bytes"
	"encoding/xml"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// FuzzSVG holds that a drawing which is published refers to nothing outside it, has nothing
// that acts, and is published as the same once more.
func FuzzSVG(f *testing.F) {
	const head = `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" viewBox="0 0 9 9">`
	for _, body := range []string{
		`<rect width="9" height="9" fill="url(#a)"/>`, `<style>rect { fill: red }</style>`, `<style>@import "//x.example/a.css";</style>`,
		`<a xlink:href="https://x.example/">a</a>`, `<image href="data:image/png;base64,iVBORw0KGgo="/>`, `<image href="x.png"/>`,
		`<use href="#a"/>`, `<use href="b.svg#a"/>`, `<script>alert(1)</script>`, `<g onload="alert(1)"/>`,
		`<rect style="fill: url('https://x.example/')"/>`, `<foreignObject><p xmlns="http://www.w3.org/1999/xhtml">a</p></foreignObject>`,
		`<linearGradient id="a"><stop offset="1"/></linearGradient>`, `<text>http://x.example</text>`, `<![CDATA[a]]>`, `<!-- a -->`,
	} {
		f.Add([]byte(head + body + `</svg>`))
	}
	f.Add([]byte(`<!DOCTYPE svg [<!ENTITY a "b">]>` + head + `&a;</svg>`))
	dir := f.TempDir()
	f.Fuzz(func(t *testing.T, data []byte) {
		if !maybeSVG(data) {
			return
		}
		out, ok := published(t, dir, data)
		if !ok {
			return
		}
		mustBePlain(t, out)
		again, ok := published(t, dir, out)
		require.True(t, ok, "what is published is refused: %q", out)
		require.Equal(t, string(out), string(again))
	})
}

// published gives a drawing as it is published; false where it is refused.
func published(t *testing.T, dir string, data []byte) (out []byte, ok bool) {
	t.Helper()
	p, err := look(source{dir, "a.svg"}, data, newRoom())
	if err != nil {
		require.NotEmpty(t, err.Error())
		return nil, false
	}
	require.NoError(t, os.WriteFile(filepath.Join(dir, "a.svg"), data, 0o644))
	require.NoError(t, p.Write(func(file File, b []byte) error {
		if strings.HasSuffix(file.Name, ".svg") {
			out = bytes.Clone(b)
		}
		return nil
	}))
	return out, out != nil
}

// elsewhere is what fetches from another host or a file, or acts, in a style or an attribute. An
// address alone does not.
var elsewhere = regexp.MustCompile(`(?i)url\s*\(\s*["']?\s*[^"'#\s)]|image-set|@import|javascript:`)

// mustBePlain reads a drawing anew and looks at all that is in it.
func mustBePlain(t *testing.T, data []byte) {
	t.Helper()
	d := xml.NewDecoder(bytes.NewReader(data))
	style := 0
	for {
		token, err := d.Token()
		if err == io.EOF {
			return
		}
		require.NoError(t, err)
		switch token := token.(type) {
		case xml.Directive:
			t.Fatalf("a document type: %q", data)
		case xml.StartElement:
			name := strings.ToLower(token.Name.Local)
			own := token.Name.Space == svgSpace // others are not drawn
			if own {
				require.NotContains(t, []string{"script", "foreignobject", "iframe", "a", "set", "animate"}, name)
			}
			require.NotEqual(t, htmlSpace, token.Name.Space)
			if name == "style" {
				style++
			}
			for _, a := range token.Attr {
				mustStayInside(t, a, own)
			}
		case xml.EndElement:
			if strings.EqualFold(token.Name.Local, "style") {
				style--
			}
		case xml.CharData:
			if style > 0 {
				require.NotRegexp(t, elsewhere, string(token))
			}
		}
	}
}

func mustStayInside(t *testing.T, a xml.Attr, own bool) {
	t.Helper()
	name := strings.ToLower(a.Name.Local)
	switch {
	case name == "xmlns" || a.Name.Space == "xmlns":
	case name == "href" || name == "src":
		value := strings.TrimSpace(a.Value)
		require.True(t, strings.HasPrefix(value, "#") || strings.HasPrefix(value, "data:image/"), "%q", value)
	default:
		require.False(t, own && strings.HasPrefix(name, "on"), name)
		require.NotRegexp(t, elsewhere, a.Value)
	}
}
