package guide

import (
	"html/template"
	"slices"
	"strconv"
	"strings"

	"ferrule/compiler/line"
	"ferrule/compiler/model"
	"ferrule/out/tongue"
)

// edition is in which language a set of pages is written.
type edition struct {
	tongue   *tongue.Tongue
	folder   string // of its pages, below the public one: `fr/`; "" for that of the workbooks
	source   string // the tag of the workbooks' language
	scripts  string // the file of what scripts say, below the folder; "" where they speak English
	wordings model.Wordings
	printed  map[string]bool   // texts of the workbooks that are to be translated, by their keys; nil where none is
	figures  map[string]string // measured values that have another decimal sign here, by their keys
}

// editions gives those of a catalogue, that of the workbooks first.
func editions(cat *model.Catalogue, o Options) []*edition {
	source := cat.Settings.Source()
	out := []*edition{{tongue: o.speak(source), source: source}}
	if len(cat.Settings.Languages) == 0 {
		return out
	}
	printed := map[string]bool{}
	for t := range cat.Texts {
		printed[model.TextKey(t.Text)] = true
	}
	for _, tag := range cat.Settings.Languages {
		spoken := o.speak(tag)
		out = append(out, &edition{tongue: spoken, folder: tag + "/", source: source, wordings: cat.WordingsIn(tag), printed: printed, figures: figuresIn(cat, spoken.Decimal())})
	}
	return out
}

// speak gives the tongue of a language that Settings name; bind has held that there is one.
func (o Options) speak(tag string) *tongue.Tongue {
	if o.Tongue != nil {
		return o.Tongue(tag)
	}
	t, ok := tongue.Of(tag)
	if !ok {
		return tongue.English()
	}
	return t
}

// spoken tells whether scripts need words of the language: they have those of English.
func (e *edition) spoken() bool { return e.tongue.Say("English") != "English" }

// tr gives what a text of the workbooks reads in the edition; the text itself where nothing
// says that.
func (e *edition) tr(text string) string {
	key := model.TextKey(text)
	if shown, ok := e.figures[key]; ok {
		return shown
	}
	if !e.printed[key] {
		return text
	}
	if w := e.wordings.Of(text); w != nil {
		return w.Text
	}
	return text
}

// foreign gives the language of a text that is not that of its page; "" where it is.
func (e *edition) foreign(text string) string {
	if e.printed[model.TextKey(text)] && e.wordings.Of(text) == nil {
		return e.source
	}
	return ""
}

// lang is foreign as an attribute.
func (e *edition) lang(text string) template.HTMLAttr {
	if tag := e.foreign(text); tag != "" {
		return template.HTMLAttr(` lang="` + template.HTMLEscapeString(tag) + `"`)
	}
	return ""
}

// keyed gives what a name is in the workbooks where a page shows another text for it: the addresses of a
// finder are the same in every language.
func (e *edition) keyed(shown, key string) template.HTMLAttr {
	decimals := strings.Contains(key, ".") && e.tongue.Decimal() != "."
	if e.tr(shown) == key && !decimals {
		return ""
	}
	return template.HTMLAttr(` data-key="` + template.HTMLEscapeString(key) + `"`)
}

// trCautions is tr for cautions.
func (e *edition) trCautions(all cautions) cautions {
	for i := range all {
		all[i].Text = e.tr(all[i].Text)
	}
	return all
}

// trEach is tr for several texts.
func (e *edition) trEach(texts []string) []string {
	if texts == nil {
		return nil
	}
	out := make([]string, len(texts))
	for i, t := range texts {
		out[i] = e.tr(t)
	}
	return out
}

// funcs are what templates say words by.
func (e *edition) funcs() template.FuncMap {
	t := e.tongue
	return template.FuncMap{
		"say": t.Say, "piece": t.Piece, "tr": e.tr, "lang": e.lang, "foreign": e.foreign,
		"keyed":  e.keyed,
		"count":  t.Count,
		"either": func(names []string) string { return t.Or(e.trEach(names)) },
		"sep":    func(i, n int, last string, next ...string) string { return separator(t, i, n, last, next...) },
		"heard":  func(text string) string { return plainTitle(e.tr(text)) }, // in attributes, which no element around keeps their direction in
	}
}

// separator gives what stands before item i of n in a list of words. next is how the item begins, where
// that is known.
func separator(t *tongue.Tongue, i, n int, last string, next ...string) string {
	switch {
	case i == 0:
		return ""
	case i == n-1:
		return t.Last(last, strings.Join(next, ""))
	}
	return ", "
}

// spans says ranges of years, in one line each: `2004, 2007 to 2012`.
func (e *edition) spans(spans []model.Span) string {
	words := make([]string, len(spans))
	for i, s := range spans {
		if words[i] = strconv.Itoa(s.From); s.To > s.From {
			words[i] = e.between(words[i], strconv.Itoa(s.To))
		}
	}
	return strings.Join(words, ", ")
}

// between says a range on one line.
func (e *edition) between(from, to string) string {
	return strings.ReplaceAll(e.tongue.Say("%s to %s", from, to), " ", "\u00a0")
}

// onLine says a range of serial numbers or dates.
func (e *edition) onLine(k line.Kind, r line.Range) string { return e.rangeWords(k.Write(r)) }

// rangeWords says a range as package line writes it.
func (e *edition) rangeWords(words string) string {
	for _, key := range []string{"from %s", "to %s"} {
		before, _, _ := strings.Cut(key, "%s")
		if end, ok := strings.CutPrefix(words, before); ok {
			return e.tongue.Say(key, end)
		}
	}
	from, to, both := strings.Cut(words, " to ")
	if !both {
		return from
	}
	return e.tongue.Say("%s to %s", from, to)
}

// alternate is the page in one of the languages.
type alternate struct {
	Lang, Name string // its tag, and what it calls itself
	Href       string // relative to the page
	URL        string // the address on the web; Href where no base url is set
	Here       bool
}

// alternates leads from a page to itself in every language, that of the workbooks first; nil where there is one
// language. path is that of the page without the folder of its language.
func (s *site) alternates(path string) []alternate {
	if len(s.all) < 2 {
		return nil
	}
	up := strings.Repeat("../", strings.Count(s.folder+path, "/"))
	var out []alternate
	for _, e := range s.all {
		a := alternate{Lang: e.tongue.Tag(), Name: e.tongue.Say("English"), Href: up + e.folder + path, Here: e == s.edition}
		if a.URL = a.Href; s.base != "" && !s.draft {
			a.URL = s.base + e.folder + path
		}
		if same := func(o *edition) bool { return o != e && o.tongue.Say("English") == a.Name }; slices.ContainsFunc(s.all, same) {
			a.Name += " (" + a.Lang + ")"
		}
		out = append(out, a)
	}
	return out
}
