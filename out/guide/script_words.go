package guide

import (
	"encoding/json"
	"path/filepath"
	"regexp"
	"slices"

	"ferrule/out/tongue"
)

// wordsFile is what scripts say in a language, as templates and assets.json call it, below its folder. Without
// it they speak English.
const wordsFile = "words.js"

// scriptWord is a text that a script says: say("…"), said("…"), put("…"), or count(n, "for one", "for %d").
var scriptWord = regexp.MustCompile(`\b(?:say\(|said\(|put\(|count\([\w.]+, (?:"(?:[^"\\]|\\.)*"), )("(?:[^"\\]|\\.)*")`)

// scriptWords lists the texts that our scripts say, sorted.
func scriptWords() []string {
	var out []string
	for _, name := range staticFiles() {
		if filepath.Ext(name) != ".js" {
			continue
		}
		text, err := static.ReadFile(name)
		if err != nil {
			panic("guide: what is embedded can be read: " + err.Error())
		}
		for _, m := range scriptWord.FindAllSubmatch(text, -1) {
			var key string
			if err := json.Unmarshal(m[1], &key); err != nil {
				panic("guide: a text of a script is one of JSON as well: " + string(m[1]))
			}
			out = append(out, key)
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// words is what scripts say in a further language, and in that of the workbooks where that is not English:
// `guideWords = {language: …, words: {English: [text, for one]}}`. Without a name: scripts need none.
func (e *edition) words() asset {
	if !e.spoken() {
		return asset{}
	}
	words := map[string][]string{}
	for key, w := range e.tongue.Phrases(scriptWords()) {
		words[key] = forms(w)
	}
	data, err := json.Marshal(struct {
		Language string              `json:"language"`
		Words    map[string][]string `json:"words"`
	}{e.tongue.Tag(), words})
	if err != nil {
		panic("guide: words can be put as JSON: " + err.Error())
	}
	data = []byte("globalThis.guideWords=" + string(data) + "\n")
	return asset{digested(wordsFile, data), data}
}

func forms(w tongue.Phrase) []string {
	if w.One == "" {
		return []string{w.Text}
	}
	return []string{w.Text, w.One}
}
