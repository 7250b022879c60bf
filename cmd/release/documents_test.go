package main

import (
	"path"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var link = regexp.MustCompile(`\]\(([^)#\s]+)[^)]*\)`)

// TestLinksLeadSomewhere holds that who has an archive alone can follow each link of its pages.
func TestLinksLeadSomewhere(t *testing.T) {
	files, err := documents("../..")
	require.NoError(t, err)
	there := map[string]bool{}
	for _, f := range files {
		there[f.name], there[path.Dir(f.name)] = true, true
	}
	links := 0
	for _, f := range files {
		if path.Ext(f.name) != ".md" {
			continue
		}
		for _, m := range link.FindAllStringSubmatch(string(f.data), -1) {
			if strings.Contains(m[1], ":") {
				continue
			}
			links++
			assert.True(t, there[path.Join(path.Dir(f.name), m[1])], "%s leads to %s, which is not in the archive", f.name, m[1])
		}
	}
	assert.Greater(t, links, 10)
}

// TestSamplesOfTheReadmeAreThere holds that the workbooks on the README's command lines are in an archive.
func TestSamplesOfTheReadmeAreThere(t *testing.T) {
	files, err := documents("../..")
	require.NoError(t, err)
	var names, readme string
	for _, f := range files {
		names += "/" + f.name
		if f.name == "README.md" {
			readme = string(f.data)
		}
	}
	samples := regexp.MustCompile(`(?m)^(?:\./)?ferrule .*?(testdata/[\w./]+)`).FindAllStringSubmatch(readme, -1)
	require.NotEmpty(t, samples)
	for _, m := range samples {
		assert.Contains(t, names, "/"+m[1])
	}
}
