package guide

import (
	"fmt"
	"slices"
	"strings"

	"ferrule/compiler/model"
	"ferrule/out/search"
	"ferrule/schema/word"
)

// Kinds of what the search finds, in the order in which equals are listed.
const (
	kindPlatform = iota
	kindMaker
	kindTrait
	kindPart
	kindKit
	kindOriginal
	kindFormer
	kindOther
)

// kindWords names the kinds as people read them.
func kindWords() []string {
	return []string{"Platform", "Maker", "To look at", "Part", "Kit", "Original number", "Former number", "Other number"}
}

// writeIndex makes the search index.
func (s *site) writeIndex(emit Emit) error {
	return search.Write(kindWords(), s.findable(), emit)
}

// findable lists all that the search finds.
func (s *site) findable() []search.Entry {
	var out []search.Entry
	for _, p := range s.cat.Platforms {
		out = append(out, search.Entry{Kind: kindPlatform, Title: p.Name, Href: s.platformFiles[p],
			Note: listed(p.Maker, unbroken(model.SpanWords(s.exist[p])), alsoCalled(p.Called)), Words: p.Maker, Also: model.Names(p.Called, nil)})
	}
	for _, m := range s.makers {
		if m.Name != "" {
			out = append(out, search.Entry{Kind: kindMaker, Title: m.Name, Href: s.indexFile() + "#" + m.Anchor})
		}
	}
	for _, t := range s.cat.Traits {
		words := listed(valueNames(t)...)
		out = append(out, search.Entry{Kind: kindTrait, Title: t.Name, Href: s.aToZFile() + "#" + s.traits[t], Note: words, Words: words, Also: calledOf(t)})
	}
	for _, p := range s.cat.Parts {
		kind := kindPart
		if p.Kit() {
			kind = kindKit
		}
		words := listed(p.Name, p.Family)
		out = append(out, search.Entry{Kind: kind, Title: p.Number, Href: s.partFiles[p], Note: listed(words, statusWord(p)), Words: words})
	}
	for _, r := range s.cat.References {
		if file := s.partFiles[r.Part]; file != "" && r.Number != "" {
			out = append(out, search.Entry{Kind: referenceKind(r), Title: r.Number, Href: file,
				Note: listed(r.Source, partName(r.Part)), Words: r.Source})
		}
	}
	return out
}

// listed joins what is not empty by commas.
func listed(words ...string) string {
	return strings.Join(slices.DeleteFunc(words, func(w string) bool { return w == "" }), ", ")
}

func referenceKind(r *model.Reference) int {
	switch r.Kind {
	case "original":
		return kindOriginal
	case "former":
		return kindFormer
	}
	return kindOther
}

// alsoCalled says what something is called besides, "" for nothing.
func alsoCalled(called []model.Called) string {
	names := model.Names(called, nil)
	if names == nil {
		return ""
	}
	return fmt.Sprintf("also called %s", word.List(names, "and"))
}

// calledOf gives what people call a trait and its values besides.
func calledOf(t *model.Trait) []string {
	out := model.Names(t.Called, nil)
	for _, v := range t.Values {
		out = append(out, model.Names(v.Called, nil)...)
	}
	return out
}
