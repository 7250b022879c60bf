package guide_test

import (
	"encoding/json"
	"os"
	"os/exec"
	"regexp"
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/out/search"
)

// The script folds a query as the index folds what is found: its own function is run
// over letters of many alphabets and over what people type.
func TestScriptFoldsAsTheIndexDoes(t *testing.T) {
	script, err := os.ReadFile("search.js")
	require.NoError(t, err)
	function := regexp.MustCompile(`(?s)\n  (function fold\(text\) \{.*?\n  \})`).FindStringSubmatch(string(script))
	require.Len(t, function, 2)
	node, err := exec.LookPath("node")
	if err != nil {
		without(t, "node")
	}
	texts := []string{"HPR-21 01", " ½ in ", "ΟΔΟΣ, οδός", "İI ıi", "ﬁ ǅ ẞ", "x\u202ey\u200bz", "1\u2044 2\u00a0mm", "ＨＰＲ－７", "e\u0301é"}
	for r := rune(0x20); r < 0x3100; r++ { // from Latin to the kana, as far as both know the letter
		if unicode.In(r, unicode.L, unicode.M, unicode.N, unicode.P, unicode.S, unicode.Z, unicode.Cc, unicode.Cf) {
			texts = append(texts, "a"+string(r)+"b")
		}
	}
	input, err := json.Marshal(texts)
	require.NoError(t, err)
	cmd := exec.Command(node, "-e", function[1]+`
process.stdout.write(JSON.stringify(JSON.parse(require("fs").readFileSync(0, "utf8")).map(fold)))`)
	cmd.Stdin, cmd.Stderr = strings.NewReader(string(input)), os.Stderr
	out, err := cmd.Output()
	require.NoError(t, err)
	var got []string
	require.NoError(t, json.Unmarshal(out, &got))
	require.Len(t, got, len(texts))
	differ := 0
	for i, text := range texts {
		if want := search.Fold(text); want != got[i] {
			differ++
			t.Logf("%q (%x): the index has %q, the script %q", text, text, want, got[i])
		}
	}
	assert.Zero(t, differ)
}
