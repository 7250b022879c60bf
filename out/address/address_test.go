package address_test

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/model"
	"ferrule/out/address"
	"ferrule/schema"
)

func catalogue(platforms, parts []string) *model.Catalogue {
	cat := &model.Catalogue{}
	for _, n := range platforms {
		cat.Platforms = append(cat.Platforms, &model.Platform{Name: n})
	}
	for _, n := range parts {
		cat.Parts = append(cat.Parts, &model.Part{Number: n})
	}
	return cat
}

func TestAddresses(t *testing.T) {
	cat := catalogue([]string{"H7", "Heron 7/8"}, []string{"WD-120", "½ in"})
	b := address.New(cat, nil)
	assert.Equal(t, "platforms/h7.html", b.Platform(cat.Platforms[0]))
	assert.Equal(t, []string{"guides/H7.json", "guides/Heron-7-8.json"}, []string{b.PlatformData(cat.Platforms[0]), b.PlatformData(cat.Platforms[1])})
	assert.Equal(t, "parts/wd-120.html", b.Part(cat.Parts[0]))
	assert.Equal(t, "parts/1-2-in.json", b.PartData(cat.Parts[1]))
	assert.Empty(t, b.Part(&model.Part{Number: "WD-120"}), "a number that nothing declares")
	assert.Empty(t, b.Gone())
}

// store writes the register of a book as a build does, and reads it as the next one does.
func store(t *testing.T, b *address.Book) *address.Register {
	t.Helper()
	dir := t.TempDir()
	var text bytes.Buffer
	require.NoError(t, b.Register().Write(&text))
	require.NoError(t, schema.ValidatePublished("pages.schema.json", text.Bytes()))
	require.NoError(t, os.WriteFile(filepath.Join(dir, address.File), text.Bytes(), 0o644))
	r, err := address.Earlier(dir, &model.Catalogue{})
	require.NoError(t, err)
	return r
}

// Over three releases: what stays keeps its address although a name comes that has a
// better claim to it, what goes is known for good, and what comes back has its old
// address again.
func TestAddressesStay(t *testing.T) {
	first := catalogue([]string{"H 7"}, []string{"A 1", "B-2", "C-3"})
	first.Parts[1].Name = "Bracket"
	first.Parts[1].Status = model.Superseded
	first.Parts[1].ReplacedBy = &model.Fits{Outcome: model.Fitted, Alternatives: []model.Alternative{{{Part: first.Parts[2]}, {Part: first.Parts[0], Quantity: 4}}}}
	one := address.New(first, nil)

	second := catalogue([]string{"H-7", "H 7"}, []string{"A-1", "A 1", "C-3"})
	two := address.New(second, store(t, one))
	assert.Equal(t, "platforms/h-7.html", two.Platform(second.Platforms[1]))
	assert.NotEqual(t, "platforms/h-7.html", two.Platform(second.Platforms[0]))
	assert.Equal(t, "parts/a-1.html", two.Part(second.Parts[1]))
	gone := []address.Page{{Kind: address.KindPart, Name: "B-2", Page: "parts/b-2.html", Data: "parts/b-2.json", Label: "Bracket",
		Status: "superseded", ReplacedBy: [][]address.Item{{{Part: "C-3", Quantity: 1}, {Part: "A 1", Quantity: 4}}}}}
	assert.Equal(t, gone, two.Gone())

	third := catalogue(nil, []string{"A 1", "B/2"})
	three := address.New(third, store(t, two))
	assert.Equal(t, "parts/b-2.html", three.Part(third.Parts[1]), "the page of what has gone may be used again")
	var names []string
	for _, p := range three.Gone() {
		names = append(names, p.Name)
	}
	assert.Equal(t, []string{"H-7", "H 7", "A-1", "C-3"}, names)

	fourth := catalogue([]string{"H-7"}, []string{"B-2"})
	four := address.New(fourth, store(t, three))
	assert.Equal(t, two.Platform(second.Platforms[0]), four.Platform(fourth.Platforms[0]))
}

// What is called otherwise is known by its newest name.
func TestRename(t *testing.T) {
	one := address.New(catalogue([]string{"H7", "H6"}, []string{"H7"}), nil)
	two := address.New(catalogue([]string{"H8"}, nil), store(t, one))
	two.Rename(address.KindPlatform, "H7", "H8")
	now := func(b *address.Book) (out []string) {
		for _, p := range b.Gone() {
			out = append(out, p.Kind+" "+p.Name+" "+p.Now)
		}
		return out
	}
	assert.Equal(t, []string{"platform H7 H8", "platform H6 ", "part H7 "}, now(two))
	three := address.New(catalogue([]string{"H9"}, nil), store(t, two))
	three.Rename(address.KindPlatform, "H8", "H9")
	three.Rename(address.KindPart, "H7", "B-7")
	assert.Equal(t, []string{"platform H8 H9", "platform H7 H9", "platform H6 ", "part H7 B-7"}, now(three))
}

// What no build has recorded has the addresses that its catalogue would get.
func TestEarlierWithoutRegister(t *testing.T) {
	cat := catalogue([]string{"H 7"}, []string{"A 1", "A-1"})
	cat.Parts[0].Name = "Bracket"
	for _, staff := range []string{"", t.TempDir()} {
		r, err := address.Earlier(staff, cat)
		require.NoError(t, err)
		assert.Equal(t, address.New(cat, nil).Register(), r)
	}
	r, err := address.Earlier("", cat)
	require.NoError(t, err)
	next := catalogue([]string{"H8"}, []string{"A-1"})
	b := address.New(next, r)
	assert.Equal(t, address.New(cat, nil).Part(cat.Parts[1]), b.Part(next.Parts[0]))
	gone := b.Gone()
	require.Len(t, gone, 2)
	assert.Equal(t, []string{"H 7", "A 1"}, []string{gone[0].Name, gone[1].Name})
	assert.Equal(t, "Bracket", gone[1].Label)
}

func TestDamagedRegister(t *testing.T) {
	dir := t.TempDir()
	for text, want := range map[string]string{
		`{`: "cannot be read: unexpected end of JSON input",
		`{"pages": [{"kind": "part", "name": "x", "page": "../x.html", "data": "parts/x.json"}]}`:                                                                `"../x.html" with "parts/x.json" is no address of a page`,
		`{"gone": [{"kind": "part", "name": "x", "page": "parts/x.html", "data": "parts/../../x"}]}`:                                                             `is no address of a page`,
		`{"pages": [{"kind": "part", "name": "x", "page": "parts/con.html", "data": "parts/con.json"}]}`:                                                         `"parts/con.html" with "parts/con.json" is no address of a page`,
		`{"pages": [{"kind": "part", "name": "x", "page": "parts/` + strings.Repeat("x", 81) + `.html", "data": "parts/` + strings.Repeat("x", 81) + `.json"}]}`: `is no address of a page`,
		`{"pages": [{"kind": "part", "name": "x", "page": "parts/x.html", "data": "parts/y.json"}]}`:                                                             `is no address of a page`,
		`{"pages": [{"kind": "part", "name": "x", "page": "platforms/x.html", "data": "guides/x.json"}]}`:                                                        `is no address of a page`,
		`{"pages": [{"kind": "platform", "name": "x", "page": "platforms/x.html", "data": "guides/a\\x.json"}]}`:                                                 `is no address of a page`,
		`{"gone": [{"kind": "part", "name": "x", "page": "parts/a/x.html", "data": "parts/a/x.json"}]}`:                                                          `is no address of a page`,
		`{"gone": [{"kind": "part", "name": "x", "page": "parts/index.html", "data": "parts/index.json"}]}`:                                                      `is no address of a page`,
		`{"gone": [{"kind": "script", "name": "x", "page": "parts/x.html", "data": "parts/x.json"}]}`:                                                            `"script" is no kind of page`,
	} {
		require.NoError(t, os.WriteFile(filepath.Join(dir, address.File), []byte(text), 0o644))
		_, err := address.Earlier(dir, &model.Catalogue{})
		assert.ErrorContains(t, err, want)
	}
}
