package guide_test

import (
	"bytes"
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/out/guide"
)

// Months and ranges are typed in the language of the page, or as in the workbooks. The names of months and their short forms
// are those of Unicode's CLDR, which browsers and Node carry.
func TestScriptReadsMonthsOfTheLanguage(t *testing.T) {
	node, err := exec.LookPath("node")
	if err != nil {
		without(t, "node")
	}
	s := newSample()
	speaking(s, func(string) string { return "" }, "fr", "es", "de")
	dir := t.TempDir()
	pages := s.pages(t, guide.Options{})
	write(t, dir, pages)
	for language, texts := range map[string]map[string]string{
		"fr": {"mars 2009": "2009-03", "Août 2009": "2009-08", "aout 2009": "2009-08", "févr. 2009": "2009-02", "March 2009": "2009-03", "2009-03": "2009-03",
			"mars 2009 à mai 2009": "2009-03 - 2009-05", "mars 2009 to mai 2009": "2009-03 - 2009-05", "März 2009": "", "mars": ""},
		"es": {"marzo de 2009": "2009-03", "enero 2009": "2009-01", "ene 2009": "2009-01", "2009-01 a 2009-03": "2009-01 - 2009-03", "janvier 2009": ""},
		"de": {"März 2009": "2009-03", "marz 2009": "2009-03", "Dez. 2009": "2009-12", "01/2009 bis 03/2009": "2009-01 - 2009-03", "01/2009 à 03/2009": ""},
	} {
		var list []string
		var asked [][2]string
		for text := range texts {
			list, asked = append(list, text), append(asked, [2]string{"date", text})
		}
		input, err := json.Marshal(asked)
		require.NoError(t, err)
		spoken := ""
		for name := range pages {
			if strings.HasPrefix(name, language+"/words.") {
				spoken = filepath.Join(dir, name)
			}
		}
		require.NotEmpty(t, spoken)
		cmd := exec.Command(node, "testdata/browser/line.mjs", "line.js", spoken)
		cmd.Stdin, cmd.Stderr = bytes.NewReader(input), os.Stderr
		out, err := cmd.Output()
		require.NoError(t, err)
		var got []*string
		require.NoError(t, json.Unmarshal(out, &got))
		require.Len(t, got, len(list))
		for i, text := range list {
			switch want := texts[text]; {
			case want == "":
				assert.Nil(t, got[i], "%s: %q", language, text)
			case assert.NotNil(t, got[i], "%s: %q is refused", language, text):
				for _, end := range strings.Split(want, " - ") {
					assert.Contains(t, *got[i], end, "%s: %q", language, text)
				}
			}
		}
	}
}
