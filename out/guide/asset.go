package guide

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strings"

	"ferrule/compiler/picture"
	"ferrule/compiler/reason"
	"ferrule/compiler/regular"
	"ferrule/out/tongue"
)

// assetsFile says under which names style, scripts and what a theme adds are published.
const assetsFile = "assets.json"

// mostAdded bounds how many files a theme may add: a logo and a few fonts.
const mostAdded = 40

// asset is a file at the top of the public folder. A digest of its content stands in its name, so
// that a browser may keep it for as long as it likes.
type asset struct {
	name string // as it is published
	data []byte
}

// assets are the files of a site by the names that templates and style sheets call them by.
type assets map[string]asset

// assets makes the files of the theme, or of none, for pages in some languages. Of fragments our style
// holds for what is in their class alone.
func (t *Theme) assets(fragment bool, spoken ...*tongue.Tongue) assets {
	out := assets{}
	if t != nil {
		for name, a := range t.added {
			out[name] = asset{digested(strings.TrimSuffix(name, path.Ext(name))+a.ending, a.data), a.data}
		}
	}
	for _, name := range staticFiles() {
		data, own := t.own(name)
		if !own {
			data = ours(name, fragment)
		}
		if path.Ext(name) == ".css" {
			data = append(out.linked(data), styleWords(spoken, fragment, !fragment && !own)...)
		}
		out[name] = asset{digested(name, data), data}
	}
	return out
}

// own gives a file of the theme that takes the place of ours.
func (t *Theme) own(name string) ([]byte, bool) {
	if t == nil {
		return nil, false
	}
	data, ok := t.files[name]
	return data, ok
}

// digested puts a digest of the content before the ending of a name.
func digested(name string, data []byte) string {
	sum := sha256.Sum256(data)
	ending := path.Ext(name)
	return strings.TrimSuffix(name, ending) + "." + hex.EncodeToString(sum[:6]) + ending
}

// inStyle finds what a style sheet asks for.
var inStyle = regexp.MustCompile(`url\(\s*(["']?)([A-Za-z0-9._-]+)["']?\s*\)`)

// linked writes in a style sheet the names under which its files are published.
func (a assets) linked(style []byte) []byte {
	return inStyle.ReplaceAllFunc(style, func(text []byte) []byte {
		m := inStyle.FindSubmatch(text)
		if file, ok := a[string(m[2])]; ok {
			return fmt.Appendf(nil, "url(%q)", file.name)
		}
		return text
	})
}

// href gives the published name of a file; an error in a template that asks for none.
func (a assets) href(name string) (string, error) {
	if file, ok := a[name]; ok {
		return file.name, nil
	}
	return "", fmt.Errorf("there is no file %q beside the pages; there is %s", name, strings.Join(a.names(), ", "))
}

func (a assets) names() []string {
	var out []string
	for name := range a {
		out = append(out, name)
	}
	slices.Sort(out)
	return out
}

// write writes all files, and the list of their names.
func (a assets) write(emit Emit) error {
	list := map[string]string{}
	for _, name := range a.names() {
		list[name] = a[name].name
		if err := emit(a[name].name, a[name].data); err != nil {
			return err
		}
	}
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetIndent("", "  ")
	if err := e.Encode(list); err != nil { // which sorts
		return err
	}
	return emit(assetsFile, b.Bytes())
}

// added is a picture or a font of a theme.
type added struct {
	data   []byte
	ending string // of its name, as its content says
}

// plainName is how files that a theme adds may be called: nothing that means something in an
// address or a style sheet.
var plainName = regexp.MustCompile(`^[A-Za-z0-9][A-Za-z0-9_-]{0,60}\.(png|jpe?g|webp|svg|woff2?)$`)

// read takes a file that a theme adds: a picture by the rules of those in workbooks, or a font.
func (t *Theme) read(root *os.Root, dir, name string) error {
	if t.added == nil {
		t.added = map[string]added{}
	}
	if len(t.added) == mostAdded {
		return fmt.Errorf("%s is one file more than the %d pictures and fonts that a theme may add", filepath.Join(dir, name), mostAdded)
	}
	var a added
	var err error
	switch path.Ext(name) {
	case ".woff", ".woff2":
		a.ending = path.Ext(name)
		if a.data, err = regular.Read(root.FS(), name, mostFile); err == nil {
			err = font(a.data, a.ending)
		}
	default:
		a.data, a.ending, err = picture.Alone(dir, name)
		if err == nil && len(a.data) > mostFile {
			err = fmt.Errorf("it is larger than %d MB", mostFile>>20)
		}
	}
	if err != nil {
		return fmt.Errorf("%s cannot be taken: %w", filepath.Join(dir, name), reason.Of(err))
	}
	t.added[name] = a
	return nil
}

// font looks whether a file begins as a web font does and is as long as it says: signature, flavor and
// length of WOFF 1.0 (W3C, section 3) and WOFF 2.0 (W3C, section 4). Browsers hold the rest against a sanitiser.
func font(data []byte, ending string) error {
	signature := map[string]string{".woff": "wOFF", ".woff2": "wOF2"}[ending]
	if len(data) < 44 || string(data[:4]) != signature {
		return fmt.Errorf("it is no font in the format of %s", ending)
	}
	if length := int(data[8])<<24 | int(data[9])<<16 | int(data[10])<<8 | int(data[11]); length != len(data) {
		return fmt.Errorf("it is cut off, or something hangs on it: it says that it has %d bytes, and has %d", length, len(data))
	}
	return nil
}
