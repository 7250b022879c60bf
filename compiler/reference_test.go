package compiler_test

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/finding"
	"ferrule/compiler/kinds"
)

// referencePage is made from the descriptions beside the checks.
const referencePage = "../schema/FINDINGS.md"

func TestReferencePage(t *testing.T) {
	page := reference(kinds.All())
	if *update {
		require.NoError(t, os.WriteFile(referencePage, []byte(page), 0o644))
	}
	have, err := os.ReadFile(referencePage)
	require.NoError(t, err)
	assert.Equal(t, page, string(have), "renew the page: go test ./compiler -run TestReferencePage -update")
}

func reference(kinds []finding.Kind) string {
	var b strings.Builder
	b.WriteString("# Findings\n\n")
	b.WriteString("What each code means, with cells that cause it and the same cells mended. `ferrule explain CODE`\nprints the same text. This page is made from the descriptions beside the checks.\n\n")
	b.WriteString("| code | severity | holds where |\n| --- | --- | --- |\n")
	for _, k := range kinds {
		fmt.Fprintf(&b, "| [`%s`](#%s) | %s | %s |\n", k.Code, k.Code, k.Severity, k.Summary)
	}
	for _, k := range kinds {
		fmt.Fprintf(&b, "\n## %s\n\n%s\n\nBefore:\n\n```\n%s\n```\n\nAfter:\n\n```\n%s\n```\n", k.Code, k.Doc, k.Before, k.After)
	}
	return b.String()
}

// TestKindsAreComplete holds that every description says all it should, once.
func TestKindsAreComplete(t *testing.T) {
	seen := map[finding.Code]bool{}
	for _, k := range kinds.All() {
		assert.False(t, seen[k.Code], "%s is described twice", k.Code)
		seen[k.Code] = true
		assert.Regexp(t, `^[a-z]+(-[a-z]+)*$`, string(k.Code))
		assert.Regexp(t, `^(error|warning|note)`, k.Severity, k.Code)
		for what, text := range map[string]string{"summary": k.Summary, "doc": k.Doc, "before": k.Before, "after": k.After} {
			assert.NotEmpty(t, text, "%s has no %s", k.Code, what)
		}
		assert.False(t, strings.HasSuffix(k.Summary, "."), "%s: the summary is no full sentence", k.Code)
		assert.True(t, strings.HasSuffix(k.Doc, "."), "%s: the doc is made of sentences", k.Code)
	}
}
