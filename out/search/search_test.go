package search

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"testing"
	"unicode/utf16"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestFold(t *testing.T) {
	for text, want := range map[string]string{
		"HPR-2101": "hpr 2101", " Größe  ½ in": "grosse 1 2 in", "Œillet Cæsar Sjø": "oeillet caesar sjo", "Ｆｕｌｌ": "full", "İstanbul": "istanbul",
		"ΟΔΟΣ οδός": "οδοσ οδοσ", "Ретро-7": "ретро 7", "x\u202ey\u2067": "x y", "": "", "--": "", "a\u0301": "a",
	} {
		assert.Equal(t, want, Fold(text), "%q", text)
	}
}

func TestKeys(t *testing.T) {
	assert.Equal(t, []string{"hpr2101a", "hpr", "2101a", "front", "damper"},
		keys(&Entry{Title: "HPR-2101A", Words: "Front damper, a front one"})[:5])
	assert.Equal(t, []string{"lx00123b77", "00123"}, keys(&Entry{Title: "LX00123B77"}), "pieces of two letters are left out")
	assert.Equal(t, []string{"12in", "1", "2", "in"}, keys(&Entry{Title: "½ in"}))
	long := keys(&Entry{Title: strings.Repeat("é", 100), Words: strings.Repeat("word1 word2 word3 word4 word5 ", 9) + "a b c d e f g h i j k l m n o p q r s"})
	assert.Equal(t, strings.Repeat("e", 32), long[0])
	many := ""
	for i := range 100 {
		many += fmt.Sprintf("w%d ", i+10)
	}
	assert.Len(t, keys(&Entry{Title: "t", Words: many}), keysAtMost)
}

// index is what the files of an index hold, read as a script would.
type index struct {
	directory
	pieces []struct {
		Entries [][4]any
		Keys    []any
	}
	files map[string]string
}

func written(t *testing.T, entries []Entry) *index {
	t.Helper()
	x := &index{files: map[string]string{}}
	require.NoError(t, Write([]string{"Platform", "Part"}, []Place{{Name: "Front </damper>", Anchor: "at-front"}}, entries, func(name string, data []byte) error {
		require.NotContains(t, x.files, name)
		x.files[name] = string(data)
		return nil
	}))
	read := func(name string, n int, to any) {
		text, ok := strings.CutPrefix(x.files[name], fmt.Sprintf("guideSearch(%d,", n))
		require.True(t, ok, name)
		require.NoError(t, json.Unmarshal([]byte(strings.TrimSuffix(text, ")\n")), to), name)
	}
	read(First, -1, &x.directory)
	x.pieces = make([]struct {
		Entries [][4]any
		Keys    []any
	}, len(x.directory.Keys))
	for i := range x.pieces {
		read(fmt.Sprintf("search/%d.js", i), i, &x.pieces[i])
	}
	require.Len(t, x.files, len(x.pieces)+1)
	return x
}

// under lists the addresses that stand under a key, over all pieces.
func (x *index) under(key string) []string {
	var out []string
	for _, p := range x.pieces {
		for i := 0; i < len(p.Keys); i += 2 {
			if p.Keys[i] == key {
				for _, at := range p.Keys[i+1].([]any) {
					out = append(out, p.Entries[int(at.(float64))][3].(string))
				}
			}
		}
	}
	return out
}

func TestIndex(t *testing.T) {
	x := written(t, []Entry{
		{1, "HPR-2101", "Front damper, Dampers", "Front damper, Dampers", nil, "parts/hpr-2101.html", nil},
		{0, "H7", "Tarnholt, 2004", "Tarnholt", []string{"TB-40", "Tarn"}, "platforms/h7.html", []int{3, 4}},
		{1, "H7", "Bolt", "Bolt", nil, "parts/h7.html", nil},
	})
	assert.Equal(t, []string{"parts/hpr-2101.html"}, x.under("hpr2101"))
	assert.Equal(t, []string{"parts/hpr-2101.html"}, x.under("front"))
	assert.Equal(t, []string{"platforms/h7.html", "parts/h7.html"}, x.under("h7"), "of equal keys the platform comes first")
	assert.Equal(t, []string{"platforms/h7.html"}, x.under("tb40"), "by another name, as by the title")
	assert.Equal(t, []string{"platforms/h7.html"}, x.under("tarn"))
	assert.Empty(t, x.under("2004"), "what is only shown")
	assert.Contains(t, x.pieces[0].Entries, [4]any{0.0, "H7", "Tarnholt, 2004", "platforms/h7.html"})
	assert.Empty(t, x.Common)
}

// An index of 40,000 numbers comes in pieces of bounded size; every number is under its
// key; the first key of each piece stands in the directory, in the order of scripts.
func TestLargeIndex(t *testing.T) {
	var entries []Entry
	for i := range 20_000 {
		entries = append(entries,
			Entry{1, fmt.Sprintf("LX-%05d", i), "Damper, long travel", fmt.Sprintf("Damper, long travel, Family %d", i%40), nil, fmt.Sprintf("parts/lx-%05d.html", i), nil},
			Entry{1, fmt.Sprintf("𝒳 ﷺ %d", i), "\uffee", "", nil, "parts/x.html", nil})
	}
	x := written(t, entries)
	assert.Greater(t, len(x.pieces), 20)
	total := 0
	for name, text := range x.files {
		assert.LessOrEqual(t, len(text), pieceAtMost+1000, name)
		total += len(text)
	}
	t.Logf("%d pieces, %d bytes, the first file %d", len(x.pieces), total, len(x.files[First]))
	assert.Less(t, len(x.files[First]), 16<<10)
	seen := map[string]int{}
	last := ""
	for i, p := range x.pieces {
		assert.Equal(t, x.directory.Keys[i], p.Keys[0])
		for k := 0; k < len(p.Keys); k += 2 {
			key := p.Keys[k].(string)
			require.LessOrEqual(t, compare(last, key), 0)
			last = key
			seen[key] += len(p.Keys[k+1].([]any))
		}
	}
	for i := range 20_000 {
		require.Equal(t, 1, seen[fmt.Sprintf("lx%05d", i)])
	}
	assert.Equal(t, commonAtMost, seen["damper"])
	assert.Contains(t, x.Common, "damper")
	assert.NotContains(t, x.Common, "lx00001")
}

// Nothing in a text can end the call, and nothing is told of a direction.
func TestHostileTexts(t *testing.T) {
	hostile := "</script><script>alert(1)</script>\u2028\u202e\n')});alert(2)//"
	x := written(t, []Entry{{0, hostile, hostile, hostile, nil, "platforms/x.html", nil}})
	for name, text := range x.files {
		assert.NotContains(t, text, "<", name)
		assert.NotContains(t, text, "\u2028", name)
		assert.Equal(t, 1, strings.Count(text, "\n"), name)
	}
	assert.Equal(t, "</script><script>alert(1)</script> ')});alert(2)//", x.pieces[0].Entries[0][1])
	long := written(t, []Entry{{0, strings.Repeat("x", 10_000), strings.Repeat("y ", 10_000), strings.Repeat("z ", 10_000), nil, "platforms/x.html", nil}})
	assert.Less(t, len(long.files["search/0.js"]), 500)
}

// The order of keys is that of their UTF-16 units.
func TestCompare(t *testing.T) {
	letter := rapid.SampledFrom([]rune{'a', 'b', 'é', 'ж', 0x3042, 0xd7a3, 0xe000, 0xfb01, 0xffee, 0x10400, 0x1d4b3, 0x10fffd})
	rapid.Check(t, func(t *rapid.T) {
		a := string(rapid.SliceOfN(letter, 0, 4).Draw(t, "a"))
		b := string(rapid.SliceOfN(letter, 0, 4).Draw(t, "b"))
		want := slices.Compare(utf16.Encode([]rune(a)), utf16.Encode([]rune(b)))
		require.Equal(t, want, compare(a, b), "%q %q", a, b)
	})
}

func TestEmptyIndex(t *testing.T) {
	x := written(t, nil)
	assert.Equal(t, []string{First}, func() (names []string) {
		for n := range x.files {
			names = append(names, n)
		}
		return names
	}())
}
