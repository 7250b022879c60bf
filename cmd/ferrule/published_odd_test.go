package main

import (
	"bytes"
	"encoding/json"
	"encoding/xml"
	"errors"
	"io"
	"maps"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"

	"ferrule/cmd/ferrule/cli"
	"ferrule/out/folder/found"
	"ferrule/out/markup"
	"ferrule/schema"
)

// worstName ends every name, worstText every other text: markup that closes whatever it stands in,
// scripts, ends of comments and of CDATA, templates, signs of direction and for terminals, what is no
// character of XML 1.0, separators of lines in scripts, and what a spreadsheet takes for a formula.
const (
	worstName = `</script></title>"'><img src=x onerror=alert(2)>&lt]]>-->{{.Name}}` + "\u202e\u2066\u200b\u2028\u2029\x1b[31m\u0085`${x}"
	worstText = `=cmd|x!A1 ` + worstName + ` <!--<script>javascript:alert(3) [x](javascript:alert(4))` + "\x01\x08\x0b\x0c\n\t@x\uffff"
)

// worstSheets is a catalogue without errors that uses all sheets guides are made of. `~` ends names, `^` other texts,
// `*` parts of names that differ in what a file name loses.
const worstSheets = `Settings|Setting|Value;title|T^;publisher|P^;contact|c^;release|r^;base url|https://guides.example/;language|en;languages|fr, de, es;public columns|Colour~
Platforms|Platform|Years|Maker|Summary|How to tell|Also called;H7~|2001-2004|M^|s^|h^|alt~;h7~*|2001-2002||||
Traits|Trait|Value|Kind|Question|How to tell|Also called|Effort;T~|x~|choice|q^|h^|old~|1;T~|y~|choice||||;U~|u~|choice|q^|h^||2;U~|v~|choice|||;Built~|2001-01 to 2004-12|date|q^|h^||;No~|A1-A999|serial|q^|h^|
Vehicles|Platform|Years|T~|U~|Built~|No~|On the road;H7~||any|any|any|any|5;h7~*||x~|u~|any|any|2
Breaks|Platform|Trait|Value|Years;H7~|U~|v~|2003+
Positions|Position|Quantity|Axle|Side|Summary|Family|Coverage;P1~|1|front|left|s^|F~|;P2~|1|front|right|s^|F~|;P3~|2|drive|both|s^|F~|wanted
Parts|Part|Name|Family|Status|Replaced by|Summary|Colour~|Length [mm]|Cautions;A-1~|n^|F~|||s^|red^|12|key~;B-2~|n^|F~|||s^|blue^|13|;C-3~|n^|F~|superseded|A-1~|s^||14|;K-1~|kit^|F~|||s^|||
References|Part|Number|Source|Kind;A-1~|N1~|s^|other;A-1~|N0~|s^|former
Kits|Kit|Part|Quantity;K-1~|A-1~|2;K-1~|B-2~|1
Compatibility|Part|With|Platform|Effect|Reason;A-1~||H7~|caution|r^
Cautions|Caution|Text|Level;key~|c^|danger
Fitment|Platform|Years|T~|U~|Built~|P1~|P1~ note|P2~|P3~|Note|Cautions;any||x~|||A-1~|n^|K-1~|2 x B-2~|n2^|key~;any|to 2002|y~||before 2002-05|B-2~||none: none^|ask: ask^||;any|to 2002|y~||from 2002-05|B-2~||none: none^|none: late^||;any|2003+|y~|||B-2~ or A-1~||planned: soon^|none: none^||
Complaints|Complaint|Platform|T~|Position|Family|Order|How it helps|Check first|Source;rocks^|any|x~|P1~||1|hh^|cf^|s^;rocks^|any|||F~||hh^||;dives^|H7~||P3~||2|hh^|later^|
Inspections|What to look at|Platform|U~|Position|Level|Why|Source;look^|any|u~|P1~|danger|why^|s^;other^|H7~||||why^|
Accepted|Finding|Platform|Years|Position|Reason|By;coverage-ask|H7~||P3~|r^|b^`

// worstTranslated are all texts in the languages, of texts that are as bad.
var worstTranslated = []string{"T^", "T~", "U~", "Built~", "No~", "x~", "y~", "u~", "v~", "P1~", "P2~", "P3~", "F~", "q^", "h^", "s^", "n^", "kit^", "Colour~", "red^", "blue^",
	"c^", "r^", "none^", "soon^", "n2^", "ask^", "late^", "rocks^", "dives^", "hh^", "cf^", "later^", "look^", "other^", "why^"}

// suffixes are what ends names and other texts.
type suffixes struct{ name, text string }

func (x suffixes) fill(text string) string {
	return standIn(strings.NewReplacer("~", x.name, "^", x.text, "*", "\u00a4").Replace(text))
}

// book writes the catalogue, in which some of what it says reads otherwise.
func (x suffixes) book(t *testing.T, path string, change ...string) {
	t.Helper()
	var sheets []markup.Sheet
	for line := range strings.SplitSeq(strings.NewReplacer(change...).Replace(worstSheets), "\n") {
		name, text, _ := strings.Cut(line, "|")
		sheets = append(sheets, x.filled(name, strings.Split(text, ";")))
	}
	words := []string{"Text|fr|de|es"}
	for _, text := range worstTranslated {
		digit := regexp.MustCompile(`\d*`).FindString(text[1:])
		words = append(words, strings.Join([]string{text, "f" + digit + text[:1] + "é" + text[len(text)-1:], "d" + digit + text, "e" + digit + text}, "|"))
	}
	sheets = append(sheets, x.filled("Translations", words))
	var plain bytes.Buffer
	require.NoError(t, (&markup.Book{Name: "c.xlsx", Sheets: sheets}).Write(&plain, markup.Options{Plain: true}))
	f, err := os.Create(path)
	require.NoError(t, err)
	defer f.Close()
	rewrite(t, f, plain.Bytes())
}

func (x suffixes) filled(name string, rows []string) markup.Sheet {
	var cells [][]string
	for _, row := range rows {
		of := strings.Split(row, "|")
		for i := range of {
			of[i] = x.fill(of[i])
		}
		cells = append(cells, of)
	}
	return markup.Table(name, cells[0], cells[1:])
}

// publish builds the catalogue against an earlier release of itself, which had another number, platform and family.
func (x suffixes) publish(t *testing.T) map[string]string {
	t.Helper()
	dir := t.TempDir()
	earlier, now := filepath.Join(dir, "earlier.xlsx"), filepath.Join(dir, "now.xlsx")
	x.book(t, earlier, "A-1~|n^|K-1~", "B-2~|n^|A-1~", "|2001-2002||||", "|2001-2002||||;gone~|2003||||", ";h7~*||x~|u~", ";gone~||x~|u~|any|any|1;h7~*||x~|u~", ";K-1~|kit^", ";Z-9~|old^|||||||;K-1~|kit^")
	x.book(t, now)
	site := filepath.Join(dir, "site")
	for _, args := range [][]string{{earlier}, {now, "--since", site}} {
		var stdout, stderr bytes.Buffer
		require.Equal(t, 0, cli.Run(t.Context(), append([]string{"build", "-o", site, "--today", today}, args...), &stdout, &stderr), stdout.String())
	}
	return found.Files(t, filepath.Join(site, "public"))
}

// TestWorstTextsArePublishedInert publishes the worst texts in four languages, with an earlier release, and reads every file as
// what it is: pages have the elements and attributes of harmless texts, and everything else is whole.
func TestWorstTextsArePublishedInert(t *testing.T) {
	plain := shape(t, suffixes{"z", "q"}.publish(t))
	maps.Copy(plain, shape(t, suffixes{"\u05d0", "\u05d1"}.publish(t))) // which runs to the left, and has elements of its own
	files := suffixes{worstName, worstText}.publish(t)
	kinds := map[string]int{}
	for name, text := range files {
		kinds[path.Ext(name)]++
		assert.Regexp(t, `^[A-Za-z0-9./-]+$`, name)
		assert.LessOrEqual(t, len(path.Base(name)), 120, name)
		assert.True(t, utf8.ValidString(text), name)
		switch path.Ext(name) {
		case ".html":
			inert(t, name, text, plain)
		case ".json":
			assert.NoError(t, schema.ValidatePublished(schemaOf(name), []byte(text)), name)
		case ".xml", ".atom":
			wholeXML(t, name, text)
		case ".js":
			assert.NotContains(t, text, "</script", name)
			assert.False(t, strings.ContainsAny(text, "\u2028\u2029"), "%s: a line of its own", name)
		}
	}
	for _, ext := range []string{".html", ".json", ".xml", ".atom", ".js"} {
		assert.NotZero(t, kinds[ext], ext)
	}
	for _, page := range []string{"index.html", "fr/index.html", "de/changes.html", "es/404.html"} {
		assert.Contains(t, files, page)
	}
}

// shape lists the elements of pages, and the attributes of each.
func shape(t *testing.T, files map[string]string) map[string]bool {
	out := map[string]bool{}
	for name, text := range files {
		if path.Ext(name) != ".html" {
			continue
		}
		root, err := html.Parse(strings.NewReader(text))
		require.NoError(t, err)
		for n := range root.Descendants() {
			if n.Type == html.ElementNode {
				out[n.Data] = true
				for _, a := range n.Attr {
					out[n.Data+" "+a.Key] = true
				}
			}
		}
	}
	return out
}

var (
	ownAddress = regexp.MustCompile(`^(https://guides\.example/)?[A-Za-z0-9./#?%&=+_~-]*$`)
	heard      = map[string]bool{"content": true, "alt": true, "title": true, "aria-label": true, "placeholder": true}
)

// inert holds that nothing of a page acts that would not on one of harmless texts, and that texts neither turn
// what stands beside them nor hide in what is only read out.
func inert(t *testing.T, name, text string, plain map[string]bool) {
	t.Helper()
	root, err := html.Parse(strings.NewReader(text))
	require.NoError(t, err)
	for n := range root.Descendants() {
		switch n.Type {
		case html.CommentNode:
			t.Errorf("%s: a comment: %s", name, n.Data)
		case html.TextNode:
			if strings.ContainsAny(n.Data, "\u202e\u2066") {
				assert.True(t, kept(n), "%s: %q turns what stands beside it", name, n.Data)
			}
		case html.ElementNode:
			assert.True(t, plain[n.Data], "%s: <%s> comes from a workbook", name, n.Data)
			if n.Data == "script" && n.FirstChild != nil {
				assert.True(t, json.Valid([]byte(n.FirstChild.Data)), "%s: %s", name, n.FirstChild.Data)
			}
			for _, a := range n.Attr {
				assert.True(t, plain[n.Data+" "+a.Key], "%s: <%s %s> comes from a workbook", name, n.Data, a.Key)
				if a.Key == "href" || a.Key == "src" || a.Key == "srcset" {
					assert.Regexp(t, ownAddress, a.Val, name)
				}
				if heard[a.Key] {
					assert.False(t, strings.ContainsFunc(a.Val, func(r rune) bool { return unicode.Is(unicode.Bidi_Control, r) }), "%s: <%s %s=%q>", name, n.Data, a.Key, a.Val)
				}
			}
		}
	}
}

// kept tells whether a text keeps its direction to itself, or stands where no direction counts.
func kept(n *html.Node) bool {
	for p := n.Parent; p != nil; p = p.Parent {
		if p.Data == "bdi" || p.Data == "script" {
			return true
		}
		for _, a := range p.Attr {
			if a.Key == "dir" {
				return true
			}
		}
	}
	return false
}

func wholeXML(t *testing.T, name, text string) {
	t.Helper()
	d := xml.NewDecoder(strings.NewReader(text))
	var err error
	for err == nil {
		_, err = d.Token()
	}
	assert.True(t, errors.Is(err, io.EOF), "%s: %v", name, err)
	assert.False(t, strings.ContainsFunc(text, func(r rune) bool { return unicode.Is(unicode.Bidi_Control, r) }), "%s", name)
}
