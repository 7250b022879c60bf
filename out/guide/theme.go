package guide

import (
	"errors"
	"fmt"
	"html/template"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"

	"ferrule/compiler/model"
	"ferrule/compiler/reason"
	"ferrule/compiler/regular"
	"ferrule/out/tongue"
	"ferrule/schema/word"
)

// Theme is a folder with templates, style sheets and scripts that take the place of the
// ones of the same names here. A nil Theme has none. schema/THEME.md documents what each
// template is given.
type Theme struct {
	dir   string
	files map[string][]byte
	added map[string]added // pictures and fonts
}

// staticFiles lists the style sheet, the scripts and the icon, which lie at the top of the public
// folder.
func staticFiles() []string { return list(static, ".") }

// templateFiles lists the templates.
func templateFiles() []string { return list(templates, "templates") }

func list(files fs.ReadDirFS, dir string) []string {
	entries, err := files.ReadDir(dir)
	if err != nil {
		panic("guide: what is embedded can be listed: " + err.Error())
	}
	var out []string
	for _, e := range entries {
		out = append(out, e.Name())
	}
	return out
}

// mostFile bounds a file of a theme in bytes.
const mostFile = 1 << 20

// ReadTheme reads a folder of files that take the place of ours, and of pictures and fonts that are
// added to them. Another name is an error, and so is a template that cannot be parsed or cannot be escaped; names
// that begin with a dot are left alone.
func ReadTheme(dir string) (_ *Theme, err error) {
	root, err := os.OpenRoot(dir) // which no link leads out of
	if err != nil {
		return nil, err
	}
	defer func() { err = errors.Join(err, root.Close()) }()
	entries, err := fs.ReadDir(root.FS(), ".")
	if err != nil {
		return nil, err
	}
	t := &Theme{dir: dir, files: map[string][]byte{}}
	known := slices.Concat(templateFiles(), staticFiles())
	for _, e := range entries {
		name := e.Name()
		path := filepath.Join(dir, name)
		if strings.HasPrefix(name, ".") {
			continue
		}
		if !slices.Contains(known, name) && plainName.MatchString(name) {
			if err := t.read(root, dir, name); err != nil {
				return nil, err
			}
			continue
		}
		if !slices.Contains(known, name) {
			return nil, fmt.Errorf("%s is no file of a theme%s; a theme may hold %s, and pictures and fonts (.png, .jpg, .webp, .svg, .woff, .woff2) with names of letters, digits, - and _",
				path, word.DidYouMean(name, known), strings.Join(known, ", "))
		}
		if t.files[name], err = regular.Read(root.FS(), name, mostFile); err != nil {
			return nil, fmt.Errorf("%s cannot be read: %w", path, reason.Of(err))
		}
	}
	return t, t.try()
}

// try lays out pages that say nothing, which escapes every template once.
func (t *Theme) try() error {
	layout, err := t.layout(t.assets(false), &edition{tongue: tongue.English(), source: model.DefaultLanguage})
	if err != nil {
		return err
	}
	p, err := newPress(layout, true)
	if err != nil {
		return t.fault(err)
	}
	for _, page := range blankPages() {
		if _, err := p.print(page); err != nil {
			return t.fault(err)
		}
	}
	return nil
}

// layout parses all templates, those of the theme last, so that they hold, with the words of a language.
func (t *Theme) layout(files assets, e *edition) (*template.Template, error) {
	funcs := template.FuncMap{"sep": separator, "mul": times, "inc": func(i int) int { return i + 1 }, "long": long,
		"asset": files.href, "plain": plain, "line": func(text string) bool { return plain(text) && !strings.ContainsAny(text, "\r\n") }}
	maps.Copy(funcs, e.funcs())
	out := template.Must(template.New("").Funcs(funcs).ParseFS(templates, "templates/*.tmpl"))
	if t == nil {
		return out, nil
	}
	out.Funcs(boundedFuncs(e.tongue))
	for _, name := range templateFiles() {
		text, ok := t.files[name]
		if !ok {
			continue
		}
		if _, err := out.New(name).Parse(string(text)); err != nil {
			return nil, t.fault(err)
		}
	}
	count(out)
	return out, nil
}

// inTemplate is how errors of templates begin: with the file and the line.
var inTemplate = regexp.MustCompile(`^(?:html/)?template: ?([a-z-]+\.tmpl)(:.*)`)

// fault says an error of a template with the file that it is in.
func (t *Theme) fault(err error) error {
	if err == nil {
		return nil
	}
	m := inTemplate.FindStringSubmatch(strings.ReplaceAll(err.Error(), "\n", " "))
	if m == nil {
		return fmt.Errorf("the theme %s cannot be used: %w", t.dir, err)
	}
	if _, own := t.files[m[1]]; own {
		return errors.New(filepath.Join(t.dir, m[1]) + m[2])
	}
	return fmt.Errorf("the theme %s does not go with the template %s%s", t.dir, m[1], m[2])
}
