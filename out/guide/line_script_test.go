package guide_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/model"
)

// The script reads what the rules of cells read, and nothing else.
func TestScriptReadsAsCellsDo(t *testing.T) {
	node, err := exec.LookPath("node")
	if err != nil {
		without(t, "node")
	}
	kinds := map[string]model.TraitKind{"serial": model.Serial, "date": model.Date}
	r := rand.New(rand.NewPCG(17, 4))
	var texts [][2]string
	for range 20_000 {
		texts = append(texts, [2]string{"serial", maybeRange(r, serialText)}, [2]string{"date", maybeRange(r, dateText)})
	}
	input, err := json.Marshal(texts)
	require.NoError(t, err)
	cmd := exec.Command(node, "testdata/browser/line.mjs", "line.js")
	cmd.Stdin, cmd.Stderr = bytes.NewReader(input), os.Stderr
	out, err := cmd.Output()
	require.NoError(t, err)
	var got []*string
	require.NoError(t, json.Unmarshal(out, &got))
	require.Len(t, got, len(texts))
	read := map[string]int{}
	for i, text := range texts {
		k := kinds[text[0]].Line()
		want, err := k.Range(text[1])
		if err != nil {
			assert.Nil(t, got[i], "%q is read, and is refused in cells: %v", text, err)
			continue
		}
		read[text[0]]++
		if assert.NotNil(t, got[i], "%q is refused, and is read in cells", text) {
			words := k.Point(want.First()) + " to " + k.Point(want.End())
			same, err := k.Range(*got[i])
			require.NoError(t, err)
			assert.Equal(t, words, k.Point(same.First())+" to "+k.Point(same.End()), "%q", text)
		}
	}
	assert.Greater(t, read["serial"], 5000)
	assert.Greater(t, read["date"], 5000)
}

// maybeRange gives a text, or two with `to` between them.
func maybeRange(r *rand.Rand, text func(*rand.Rand) string) string {
	if r.IntN(4) > 0 {
		return text(r)
	}
	return text(r) + pick(r, " to ", " TO ", "  to ") + text(r)
}

func pick(r *rand.Rand, from ...string) string { return from[r.IntN(len(from))] }

func serialText(r *rand.Rand) string {
	return pick(r, "", "", "a", "A", "ab", "ß", "é", "Ж", "ABCDEFGH", "ABCDEFGHI", "A B") + pick(r, "", "", "", " ", "-", "–", " - ", ".") +
		pick(r, "", "0", "000") + fmt.Sprint(r.Int64N(1000)) + pick(r, "", "", "", "", strings.Repeat("7", 12), strings.Repeat("7", 13), "x", " ", " 1")
}

func dateText(r *rand.Rand) string {
	year, month, day := pick(r, "2004", "2003", "1900", "2000", "0001", "9999", "04"), r.IntN(14), r.IntN(33)
	two := fmt.Sprintf("%02d", month)
	names := pick(r, "January", "feb", "MARCH", "Sep", "Sept", "may", "December", "Mai")
	return pick(r, year+"-"+two, year+"-"+two+fmt.Sprintf("-%02d", day), two+"/"+year, names+" "+year, names+"  "+year, " "+year+"-"+two+" ",
		fmt.Sprintf("%02d/%s/%s", day, two, year), fmt.Sprintf("%d/%s", month, year), year, names+year, year+"/"+two, year+"-"+fmt.Sprint(month))
}
