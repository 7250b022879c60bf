package main

import (
	"bytes"
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/cmd/ferrule/cli"
	"ferrule/out/folder/found"
)

// manual writes the manual pages and gives them by name.
func manual(t *testing.T) (dir string, pages map[string]string) {
	t.Helper()
	dir = filepath.Join(t.TempDir(), "man1")
	var stdout, stderr bytes.Buffer
	require.Equal(t, 0, cli.Run(context.Background(), []string{"man", dir}, &stdout, &stderr), stderr.String())
	return dir, found.Files(t, dir)
}

// TestManualPages wants a page for every command that help lists, with what its help
// says.
func TestManualPages(t *testing.T) {
	_, pages := manual(t)
	var help, stderr bytes.Buffer
	require.Equal(t, 0, cli.Run(context.Background(), []string{"--help"}, &help, &stderr))
	for _, c := range []string{"check", "build", "accept", "pick", "fleet", "why", "gaps", "new", "explain", "cells", "completion", "version"} {
		require.Contains(t, help.String(), "\n  "+c+" ")
		page := pages["ferrule-"+c+".1"]
		for _, section := range []string{".TH \"FERRULE\\-", "NAME", "SYNOPSIS", "DESCRIPTION", "OPTIONS", "EXIT STATUS", "SEE ALSO"} {
			assert.Contains(t, page, section, c)
		}
	}
	assert.Contains(t, pages["ferrule.1"], "ferrule\\-why(1)")
	assert.Contains(t, pages["ferrule-pick.1"], `\-\-platform PLATFORM`)
	assert.NotContains(t, pages, "ferrule-man.1", "it is hidden")
	_, again := manual(t)
	assert.Equal(t, pages, again)
}

// TestManualPagesAreRoff has groff read the pages with all its warnings. Where CI is set
// it must be there; elsewhere, without it, the test is skipped.
func TestManualPagesAreRoff(t *testing.T) {
	groff, err := exec.LookPath("groff")
	if err != nil {
		require.Empty(t, os.Getenv("CI"), "groff is missing; .ci/run installs it")
		t.Skip("groff is missing; .ci/run installs it")
	}
	dir, pages := manual(t)
	read := func(file string) (text, warnings string) {
		var stdout, stderr bytes.Buffer
		cmd := exec.Command(groff, "-man", "-ww", "-Tutf8", "-P-c", file)
		cmd.Stdout, cmd.Stderr = &stdout, &stderr
		require.NoError(t, cmd.Run(), stderr.String())
		return regexp.MustCompile(".\b").ReplaceAllString(stdout.String(), ""), stderr.String() // bold is struck twice
	}
	for name := range pages {
		text, warnings := read(filepath.Join(dir, name))
		assert.Empty(t, warnings, name)
		assert.True(t, strings.Contains(text, "\nSYNOPSIS\n"), name)
	}
	text, _ := read(filepath.Join(dir, "ferrule-cells.1"))
	assert.Contains(t, strings.Join(strings.Fields(text), " "), `written as \t, \n, \r and \\.`, "a backslash stays one")
	assert.Contains(t, text, "*.xls[xm] diff=ferrule -whitespace", "examples can be copied")
	broken := filepath.Join(t.TempDir(), "broken.1")
	require.NoError(t, os.WriteFile(broken, []byte(".TH A 1\n.NOSUCH request\n"), 0o644))
	_, warnings := read(broken)
	assert.NotEmpty(t, warnings, "groff refuses something")
}
