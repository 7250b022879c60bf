package guide_test

import (
	"math/rand/v2"
	"path"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/tidy/share"
	"ferrule/out/guide"
	"ferrule/out/tongue"
)

// led is what a finder has come to.
type led struct {
	Folder, Hash string
	Mine, Parts  []string // lines of tables, and of the list of parts
	Near         int      // ways out, where there is no such vehicle
	Words        []string
	Dated        bool // the list has the day in the words of the language
}

// parted is what holds in every language.
func (l led) parted() led { return led{Hash: l.Hash, Mine: l.Mine, Parts: l.Parts, Near: l.Near} }

// ledBy is what testdata/browser/tongues.mjs prints.
type ledBy struct {
	Pages []struct {
		Page        string
		Walks, Told map[string][]led
		Carried     []struct {
			Hash  string
			Stops []led
		}
	}
	Signs []struct {
		Page  string
		Plain []string
		Words [][]string
	}
	Errors []string
}

type picked struct {
	Page  string  `json:"page"`
	Picks [][]int `json:"picks"`
}

type fragments struct {
	Page      string   `json:"page"`
	Fragments []string `json:"fragments"`
}

// toLead is how many vehicles are led to their parts in each language.
func toLead() int {
	if share.All() {
		return 50
	}
	return 2
}

// pieces says each piece of a text between its verbs in signs, so that what stands in the place of a verb
// is seen.
func pieces(tag string) *tongue.Tongue {
	verb := regexp.MustCompile(`%(?:\[\d+\])?[sd]`)
	sign := func(text string) string {
		if strings.TrimSpace(text) == "" {
			return text
		}
		return openOwn + text + closeOwn
	}
	return tongue.Made(tag, func(key string) tongue.Phrase {
		var out strings.Builder
		at := 0
		for _, m := range verb.FindAllStringIndex(key, -1) {
			out.WriteString(sign(key[at:m[0]]) + key[m[0]:m[1]])
			at = m[1]
		}
		return tongue.Phrase{Text: out.String() + sign(key[at:])}
	})
}

// Finders lead the same vehicle to the same parts in every language, by the keyboard and by one address, which
// the links between languages carry over; and what scripts say is in the language of the page.
func TestTonguesInBrowser(t *testing.T) {
	browser(t)
	demo, lines := demoSample(t), lineSample(t)
	dir := t.TempDir()
	sign := func(text string) string { return openBook + text + closeBook }
	ask := struct {
		Folders []string            `json:"folders"`
		Pages   []picked            `json:"pages"`
		Besides map[string][]string `json:"besides"`
		Signs   []fragments         `json:"signs"`
	}{Folders: []string{"", "fr/", "de/"}, Besides: map[string][]string{"platforms/h7.html": {nowhere, "#?Position=Front+damper&Years=2011"}}}
	r := rand.New(rand.NewPCG(23, 10))
	for _, s := range []*sample{demo, lines} {
		speaking(s, sign, "fr", "de")
		write(t, dir, s.pages(t, guide.Options{}))
		write(t, path.Join(dir, "signs"), s.pages(t, guide.Options{Tongue: func(tag string) *tongue.Tongue {
			if tag == "fr" {
				return pieces(tag)
			}
			return tongue.English()
		}}))
	}
	for _, name := range []string{"platforms/h7.html", "platforms/stork-5.html"} {
		p := picked{Page: name}
		for range toLead() / 2 {
			picks := make([]int, 7)
			for i := range picks {
				picks[i] = r.IntN(1 << 20)
			}
			p.Picks = append(p.Picks, picks)
		}
		ask.Pages = append(ask.Pages, p)
	}
	ask.Signs = []fragments{
		{"signs/fr/platforms/h7.html", []string{"", answered, nowhere, "#?Years=2011", "#?Position=Front+damper&Years=2011", "#?Years=2011&Front+suspension=Air+independent"}},
		{"signs/fr/platforms/l4.html", []string{"", half}},
		{"signs/fr/platforms/stork-5.html", []string{"", numbered, ruledOut}},
	}
	var got ledBy
	play(t, "tongues.mjs", ask, &got, dir)
	require.Empty(t, got.Errors)
	for _, p := range got.Pages {
		checkLed(t, p.Page, p.Walks, p.Told)
		for _, c := range p.Carried {
			require.Len(t, c.Stops, 3)
			for _, stop := range c.Stops {
				assert.Equal(t, c.Stops[2].parted(), stop.parted(), "%s%s from %s", p.Page, c.Hash, stop.Folder)
				assert.Equal(t, c.Hash, stop.Hash, "the link to %s%s", stop.Folder, p.Page)
			}
		}
	}
	names := append(properNames(demo.Cat), properNames(lines.Cat)...)
	for _, s := range got.Signs {
		checkSigns(t, s.Page, s.Plain, s.Words, slices.Clone(names))
	}
}

// checkLed holds what finders come to in further languages against that of the workbooks.
func checkLed(t *testing.T, page string, walks, told map[string][]led) {
	found := 0
	for i, want := range walks[""] {
		found += len(want.Parts)
		for _, folder := range []string{"fr/", "de/"} {
			assert.Equal(t, want.parted(), walks[folder][i].parted(), "%s%s by the keyboard", folder, page)
			assert.True(t, walks[folder][i].Dated || want.Near > 0, "the list of %s%s has its day", folder, page)
			checkForeign(t, strings.TrimSuffix(folder, "/"), walks[folder][i].Words)
		}
		for folder, all := range told {
			assert.Equal(t, want.parted(), all[i].parted(), "%s%s by the address", folder, page)
		}
	}
	assert.Positive(t, found, "%s: no vehicle has parts", page)
}

// checkForeign holds that nothing that scripts say in English is among some texts of another language, as a whole or
// cut by what stands in the place of its verbs.
func checkForeign(t *testing.T, language string, texts []string) {
	said := map[string]bool{}
	for _, text := range texts {
		said[strings.TrimSpace(text)] = true
	}
	catalogue, verb := tongue.Catalogue(language), regexp.MustCompile(`%(?:\[\d+\])?[sd]`)
	for _, key := range guide.ScriptWords() {
		whole := regexp.MustCompile("^" + verb.ReplaceAllString(regexp.QuoteMeta(key), ".*") + "$")
		for _, piece := range verb.Split(key, -1) {
			piece = strings.TrimSpace(piece)
			if utf8.RuneCountInString(piece) < 6 || strings.Contains(catalogue[key].Text, piece) {
				continue
			}
			assert.False(t, said[piece] || slices.ContainsFunc(texts, whole.MatchString), "%s: %q is said in English", language, key)
		}
	}
}

// checkSigns holds that scripts say nothing but what is in signs, in names, or on the page without them, which other
// tests look at.
func checkSigns(t *testing.T, page string, plain []string, shown [][]string, names []string) {
	still := map[string]bool{}
	for _, text := range plain {
		still[text] = true
		if strings.HasPrefix(text, "(") || len(text) > 12 {
			names = append(names, text)
		}
	}
	names = append(names, "Colour", "red", "n/a")
	slices.SortFunc(names, func(a, b string) int { return len(b) - len(a) })
	looked := 0
	for _, all := range shown {
		for _, text := range all {
			if still[text] {
				continue
			}
			looked++
			if left := unspoken(text, names); left != "" {
				t.Errorf("%s: %q is not in the language of the page: %q", page, left, text)
			}
		}
	}
	assert.Greater(t, looked, 20, page)
}
