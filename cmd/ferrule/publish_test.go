package main

import (
	"bytes"
	"context"
	"encoding/json"
	"math/big"
	"net/url"
	"os"
	"path"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"

	"ferrule/cmd/ferrule/cli"
	"ferrule/compiler/tidy/share"
	"ferrule/out/folder/found"
	"ferrule/out/markup"
	"ferrule/schema"
)

// build publishes a catalogue as a draft and gives the published files.
func build(t *testing.T, catalogue string, flags ...string) map[string]string {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "site")
	buildTo(t, dir, catalogue, flags...)
	return found.Files(t, dir)
}

func buildTo(t *testing.T, dir, catalogue string, flags ...string) {
	t.Helper()
	var stdout, stderr bytes.Buffer
	args := append([]string{"build", catalogue, "-o", dir, "--draft", "--today", today}, flags...)
	require.Equal(t, 0, cli.Run(context.Background(), args, &stdout, &stderr), stderr.String())
}

// schemaOf gives the schema of a published JSON file.
func schemaOf(name string) string {
	kind := strings.TrimSuffix(path.Base(name), ".json")
	switch path.Base(path.Dir(name)) {
	case "guides":
		kind = "guide"
	case "parts":
		kind = "part"
	}
	if strings.HasPrefix(name, "staff/") && (kind == "guide" || kind == "catalogue") {
		kind = "staff-" + kind
	}
	return kind + ".schema.json"
}

func samples() []string { return []string{"../../testdata/demo", "../../testdata/faulty"} }

func TestPublishedFilesMeetTheirSchemas(t *testing.T) {
	for _, sample := range samples() {
		checked := map[string]bool{}
		for name, text := range build(t, sample) {
			if path.Ext(name) == ".json" {
				assert.NoError(t, schema.ValidatePublished(schemaOf(name), []byte(text)), "%s: %s", sample, name)
				checked[schemaOf(name)] = true
			}
		}
		assert.Len(t, checked, 10, "every schema has a file")
	}
}

// TestSameBytes builds twice and compares all that is published.
func TestSameBytes(t *testing.T) {
	for _, sample := range samples() {
		assert.Equal(t, build(t, sample), build(t, sample), sample)
	}
}

type coverage struct {
	Platforms []struct {
		Platform  string
		Positions []map[string]any
	}
}

type staffGuide struct {
	Positions []struct {
		Position string
		Cases    []struct {
			Outcome        string
			Configurations *big.Int
		}
	}
}

// TestCasesHoldEveryConfiguration adds the cases of each outcome up: they are what
// coverage.json says, and the six make the number of configurations.
func TestCasesHoldEveryConfiguration(t *testing.T) {
	for _, sample := range samples() {
		files := build(t, sample)
		var c coverage
		d := json.NewDecoder(strings.NewReader(files["staff/coverage.json"]))
		d.UseNumber()
		require.NoError(t, d.Decode(&c))
		require.NotEmpty(t, c.Platforms)
		for _, p := range c.Platforms {
			var g staffGuide
			require.NoError(t, json.Unmarshal([]byte(files["staff/guides/"+p.Platform+".json"]), &g), p.Platform)
			require.Len(t, g.Positions, len(p.Positions))
			for i, position := range g.Positions {
				counts := map[string]*big.Int{}
				for _, outcome := range []string{"fitted", "none", "planned", "ask", "conflict", "gap", "configurations"} {
					counts[outcome] = new(big.Int)
				}
				for _, one := range position.Cases {
					counts[one.Outcome].Add(counts[one.Outcome], one.Configurations)
					counts["configurations"].Add(counts["configurations"], one.Configurations)
				}
				for outcome, n := range counts {
					assert.Equal(t, n.String(), p.Positions[i][outcome].(json.Number).String(),
						"%s %s: %s", p.Platform, position.Position, outcome)
				}
			}
		}
	}
}

// internal is a catalogue in which SECRET stands wherever only the staff may read.
const internal = `
-- SECRET.xlsx/Platforms --
Platform	Years
H7	1998-2003
-- SECRET.xlsx/Traits SECRET --
Trait	Value
Lift axle	Fitted
-- SECRET.xlsx/Vehicles --
Platform	Lift axle	On the road	Note
H7	Fitted	120	SECRET
-- SECRET.xlsx/Positions --
Position	Quantity
Front damper	2
Rear damper	2
-- SECRET.xlsx/Parts --
Part	Name	Replaced by
QX-1	Damper	planned SECRET
SECRET-2	Damper that is offered nowhere but in a conflict
SECRET-3	Another
-- SECRET.xlsx/References --
Number	Part	Note
77	QX-1	SECRET
-- SECRET.xlsx/Fitment --
Platform	Years	Front damper	Front damper note	Rear damper
H7	to 2000	QX-1	seen by all	planned SECRET
H7	2001+	QX-1		SECRET-2
H7	2001+			SECRET-3
-- SECRET.xlsx/Accepted --
Finding	Platform	Position	Reason	By
fitment-conflict	H7	Rear damper	SECRET	SECRET
`

// TestPublicTellsNothingInternal publishes the catalogue above. Parts lists are
// public, so numbers in conflict may stand there, and nowhere as a fit.
func TestPublicTellsNothingInternal(t *testing.T) {
	books, err := markup.Books([]byte(internal))
	require.NoError(t, err)
	dir := t.TempDir()
	require.NoError(t, markup.WriteAll(dir, books, markup.Options{Plain: true}))
	files := build(t, dir)
	allowed := strings.NewReplacer("SECRET-2", "", "SECRET-3", "", "secret-2", "", "secret-3", "",
		`"secret",[1,2],"secret2",[1],"secret3",[2]`, "") // the keys that search finds the two by
	seen := 0
	for name, text := range files {
		if strings.HasPrefix(name, "public/guides/") || strings.HasPrefix(name, "public/platforms/") {
			assert.NotContains(t, text, "SECRET", name)
			assert.Contains(t, text, "seen by all", name)
			seen++
		}
		if strings.HasPrefix(name, "public/") {
			assert.NotContains(t, strings.ToUpper(allowed.Replace(text)), "SECRET", name)
			assert.NotContains(t, text, ".xlsx", name)
		}
	}
	assert.Equal(t, 2, seen)
	for _, name := range []string{"catalogue.json", "findings.json", "guides/H7.json"} {
		assert.Contains(t, files["staff/"+name], "SECRET", name)
	}
	assert.Contains(t, files["public/guides/H7.json"], `"settled": false`)
}

// TestSourcesAreNotWritten builds from workbooks that are kept as they were.
func TestSourcesAreNotWritten(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.CopyFS(dir, os.DirFS("../../testdata/demo")))
	before := found.Files(t, dir)
	build(t, dir)
	assert.Equal(t, before, found.Files(t, dir))
}

// TestPublicLinks follows every link of the published demo.
func TestPublicLinks(t *testing.T) { checkLinks(t, build(t, samples()[0])) }

// TestChangesBetweenCatalogues publishes each of three catalogues as the release after
// another one. What the earlier one said is told as little of as what this one says.
func TestChangesBetweenCatalogues(t *testing.T) {
	books, err := markup.Books([]byte(internal))
	require.NoError(t, err)
	secret := t.TempDir()
	require.NoError(t, markup.WriteAll(secret, books, markup.Options{Plain: true}))
	all := append(samples(), secret)
	if !share.All() {
		t.Log("each after itself and one other, since CI is not set")
	}
	for i, old := range all {
		before := filepath.Join(t.TempDir(), "before")
		buildTo(t, before, old)
		for k, now := range all {
			if (i-k+len(all))%len(all) > 1 && !share.All() {
				continue
			}
			files := build(t, now, "--since", before)
			for name, text := range files {
				if path.Ext(name) == ".json" {
					assert.NoError(t, schema.ValidatePublished(schemaOf(name), []byte(text)), "%s after %s: %s", now, old, name)
				}
				if strings.HasPrefix(name, "public/changes") {
					assert.NotContains(t, strings.ToUpper(text), "SECRET", "%s after %s: %s", now, old, name)
					assert.NotContains(t, text, ".xlsx", "%s after %s: %s", now, old, name)
				}
			}
			require.Contains(t, files, "public/changes.json")
			checkLinks(t, files)
			if old == now {
				assert.Contains(t, files["public/changes.json"], `"platforms": []`, now)
				assert.NotContains(t, files["staff/pages.json"], `"gone"`, now)
			}
		}
	}
}

// checkLinks follows every link of the public folder, those to JSON included, with its
// fragments, and wants every file to be led to, but for what stands where a page has gone.
func checkLinks(t *testing.T, published map[string]string) {
	t.Helper()
	files := map[string]string{}
	for name, text := range published {
		if rest, ok := strings.CutPrefix(name, "public/"); ok {
			files[rest] = text
		}
	}
	reached, links := map[string]bool{}, 0
	for name, text := range files {
		if path.Ext(name) != ".html" {
			continue
		}
		root, err := html.Parse(strings.NewReader(text))
		require.NoError(t, err)
		for n := range root.Descendants() {
			for _, a := range n.Attr {
				if a.Key != "href" && a.Key != "src" {
					continue
				}
				u, err := url.Parse(a.Val)
				require.NoError(t, err)
				if u.IsAbs() {
					assert.Equal(t, "link", n.Data, "%s: %s", name, a.Val)
					continue
				}
				target := name
				if u.Path != "" {
					target = path.Join(path.Dir(name), u.Path)
				}
				to, ok := files[target]
				assert.True(t, ok, "%s: %s leads nowhere", name, a.Val)
				assert.True(t, u.Fragment == "" || strings.Contains(to, `id="`+place(u.Fragment)+`"`), "%s: %s leads to no place of the page", name, a.Val)
				reached[target] = true
				links++
			}
		}
	}
	assert.Greater(t, links, 50)
	for name, text := range files {
		switch path.Ext(name) {
		case ".html", ".json", ".css":
			gone := strings.Contains(text, "no longer listed</strong>") || strings.Contains(text, "do not order or fit this part</strong>") ||
				strings.Contains(text, "no guide for this platform any more") || strings.Contains(text, `http-equiv="refresh"`)
			assert.True(t, reached[name] || name == "index.html" || name == "404.html" || name == "assets.json" || gone, "no page leads to %s", name)
		}
	}
}

// place gives the place of a page that the fragment of an address leads to: what is told of a vehicle
// leads to the finder.
func place(fragment string) string {
	if strings.HasPrefix(fragment, "?") {
		return "find"
	}
	return fragment
}
