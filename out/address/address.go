// Package address says where each platform and each part has its page and its data, and
// keeps it so from one release to the next.
//
// An address is made from a name (see package slug). A Register, which lies in the staff
// folder of a build, is handed to the next one: what had an address keeps it, and what
// has gone is known, so that a page can say so where it was.
package address

import (
	"path"
	"strings"

	"ferrule/compiler/model"
	"ferrule/out/slug"
)

// Book holds the addresses of one catalogue: slash paths relative to the public folder.
type Book struct {
	cat       *model.Catalogue
	platforms map[*model.Platform]pair
	parts     map[*model.Part]pair
	earlier   *Register
	renamed   map[called]string // from what something was called to what it is
}

type pair struct{ page, data string }

// called is what a platform or a part is or was called.
type called struct{ kind, name string }

// New gives every platform and part an address. earlier may be nil.
func New(cat *model.Catalogue, earlier *Register) *Book {
	if earlier == nil {
		earlier = &Register{}
	}
	b := &Book{cat: cat, earlier: earlier, platforms: map[*model.Platform]pair{}, parts: map[*model.Part]pair{}, renamed: map[called]string{}}
	files := slug.Keep(names(cat.Platforms, func(p *model.Platform) string { return p.Name }), earlier.files(KindPlatform))
	for i, p := range cat.Platforms {
		b.platforms[p] = at(KindPlatform, files[i])
	}
	files = slug.Keep(names(cat.Parts, func(p *model.Part) string { return p.Number }), earlier.files(KindPart))
	for i, p := range cat.Parts {
		b.parts[p] = at(KindPart, files[i])
	}
	return b
}

// at gives the addresses of a kind with the name of a file.
func at(kind, file string) pair {
	low := strings.ToLower(file) // lower case is easier to say and to type
	if kind == KindPlatform {
		return pair{"platforms/" + low + ".html", "guides/" + file + ".json"}
	}
	return pair{"parts/" + low + ".html", "parts/" + low + ".json"}
}

func names[T any](items []*T, name func(*T) string) []string {
	out := make([]string, len(items))
	for i, item := range items {
		out[i] = name(item)
	}
	return out
}

// Platform gives the page of a platform.
func (b *Book) Platform(p *model.Platform) string { return b.platforms[p].page }

// PlatformData gives the JSON of a platform's guide.
func (b *Book) PlatformData(p *model.Platform) string { return b.platforms[p].data }

// Part gives the page of a part, "" for a number that nothing declares.
func (b *Book) Part(p *model.Part) string { return b.parts[p].page }

// PartData gives the JSON of a part, "" for a number that nothing declares.
func (b *Book) PartData(p *model.Part) string { return b.parts[p].data }

// Rename says what a platform or a part of the earlier release is called now.
func (b *Book) Rename(kind, old, now string) { b.renamed[called{kind, old}] = now }

// Gone lists what had a page in an earlier release and has none now, in the order of the
// registers. An address that something else has now is not in it.
func (b *Book) Gone() []Page {
	taken := map[string]bool{}
	for _, p := range b.platforms {
		taken[p.page] = true
	}
	for _, p := range b.parts {
		taken[p.page] = true
	}
	var out []Page
	for _, list := range [][]Page{b.earlier.Pages, b.earlier.Gone} {
		for _, p := range list {
			if !taken[p.Page] {
				taken[p.Page] = true
				if now, ok := b.renamed[called{p.Kind, p.Name}]; ok {
					p.Now = now
				} else if now, ok := b.renamed[called{p.Kind, p.Now}]; ok {
					p.Now = now
				}
				out = append(out, p)
			}
		}
	}
	return out
}

// Register lists the addresses of the book, for the next build.
func (b *Book) Register() *Register {
	r := &Register{Pages: []Page{}, Gone: b.Gone()}
	for _, p := range b.cat.Platforms {
		at := b.platforms[p]
		r.Pages = append(r.Pages, Page{Kind: KindPlatform, Name: p.Name, Page: at.page, Data: at.data})
	}
	for _, p := range b.cat.Parts {
		at := b.parts[p]
		r.Pages = append(r.Pages, Page{Kind: KindPart, Name: p.Number, Page: at.page, Data: at.data,
			Label: p.Name, Status: p.Status.String(), ReplacedBy: alternatives(p.ReplacedBy)})
	}
	return r
}

func alternatives(f *model.Fits) [][]Item {
	if f == nil {
		return nil
	}
	var out [][]Item
	for _, a := range f.Alternatives {
		var items []Item
		for _, i := range a.Filled(1) {
			items = append(items, Item{i.Part.Number, i.Quantity})
		}
		out = append(out, items)
	}
	return out
}

// base gives the file name of an address without its ending.
func base(address string) string { return strings.TrimSuffix(path.Base(address), path.Ext(address)) }
