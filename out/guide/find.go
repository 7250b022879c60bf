package guide

import (
	"slices"
	"strings"

	"ferrule/compiler/model"
	"ferrule/out/search"
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
func (e *edition) kindWords() []string {
	say := e.tongue.Say
	return []string{say("Platform"), say("Maker"), say("To look at"), say("Part"), say("Kit"),
		say("Original number"), say("Former number"), say("Other number")}
}

// writeIndex makes the search index.
func (s *site) writeIndex(emit Emit) error {
	return search.Write(s.kindWords(), s.findable(), emit)
}

// findable lists all that the search finds.
func (s *site) findable() []search.Entry {
	var out []search.Entry
	for _, p := range s.cat.Platforms {
		out = append(out, search.Entry{Kind: kindPlatform, Title: p.Name, Href: s.platformFiles[p],
			Note: listed(p.Maker, s.spans(s.exist[p])), Words: p.Maker})
	}
	for _, m := range s.makers {
		if m.Name != "" {
			out = append(out, search.Entry{Kind: kindMaker, Title: m.Name, Href: s.indexFile() + "#" + m.Anchor})
		}
	}
	for _, t := range s.cat.Traits {
		words := listed(s.valueNames(t)...)
		out = append(out, search.Entry{Kind: kindTrait, Title: s.tr(t.Name), Href: s.aToZFile() + "#" + s.traits[t], Note: words, Words: words})
	}
	for _, p := range s.cat.Parts {
		kind := kindPart
		if p.Kit() {
			kind = kindKit
		}
		words := listed(s.tr(p.Name), s.tr(p.Family))
		out = append(out, search.Entry{Kind: kind, Title: p.Number, Href: s.partFiles[p], Note: listed(words, s.statusWord(p)), Words: words})
	}
	for _, r := range s.cat.References {
		if file := s.partFiles[r.Part]; file != "" && r.Number != "" {
			out = append(out, search.Entry{Kind: referenceKind(r), Title: r.Number, Href: file,
				Note: listed(r.Source, s.partName(r.Part)), Words: r.Source})
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
