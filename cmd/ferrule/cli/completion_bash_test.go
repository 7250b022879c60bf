package cli

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// completed gives what bash is offered for a line, and the words that the program was asked
// with, where the program answers with these lines.
func completed(t *testing.T, line string, answer ...string) (offered, asked []string) {
	t.Helper()
	if _, err := exec.LookPath("bash"); err != nil {
		if os.Getenv("CI") != "" {
			t.Fatal(err)
		}
		t.Skip("bash is not installed")
	}
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "script"), []byte(bashCompletion), 0o600))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "answer"), []byte(strings.Join(answer, "\n")+"\n"), 0o600))
	cmd := exec.Command("bash", "--noprofile", "--norc", "-c", `. ./script
ferrule() { printf '%s\0' "$@" >asked; cat answer; }
compopt() { :; }
COMP_LINE=$1 COMP_POINT=${#1} COMP_WORDBREAKS=$' \t\n"\'><=;|&(:'
__start_ferrule ferrule
printf '%s\0' "${COMPREPLY[@]}"`, "bash", line)
	cmd.Dir = dir
	cmd.Env = append(os.Environ(), "LC_ALL=C.UTF-8", "HOME=/home/parts")
	out, err := cmd.CombinedOutput()
	require.NoError(t, err, "%s", out)
	words, err := os.ReadFile(filepath.Join(dir, "asked"))
	require.NoError(t, err)
	assert.NoFileExists(t, filepath.Join(dir, "ran"), "completing has run something")
	return nul(out), nul(words)
}

func nul(text []byte) []string {
	return strings.Split(strings.TrimSuffix(string(text), "\x00"), "\x00")
}

// shellWord gives the word that bash makes of a text.
func shellWord(t *testing.T, text string) string {
	t.Helper()
	dir := t.TempDir()
	cmd := exec.Command("bash", "--noprofile", "--norc", "-c", `eval "set -- $1"; printf %s "$*"`, "bash", text)
	cmd.Dir = dir
	cmd.Env = append(os.Environ(), "LC_ALL=C.UTF-8")
	out, err := cmd.Output()
	require.NoError(t, err)
	assert.NoFileExists(t, filepath.Join(dir, "ran"), "what was completed has run something: %s", text)
	return string(out)
}

// oddNames are names of a workbook that a shell would not take for names.
var oddNames = []string{"$(touch ran)", "`touch ran`", "a; touch ran", "H 7", `a"b`, "it's", `a\b`, "x$HOME", "a&touch ran", "Größe", "*", "#x", "~"}

// Whatever quotation mark is open: what comes out of a name is the name, and nothing is run,
// also where several names have their beginning in common.
func TestBashQuotes(t *testing.T) {
	for _, begun := range []string{"", `"`, "'"} {
		for _, name := range oddNames {
			offered, asked := completed(t, "ferrule pick cat --part "+begun, name, name+" more", ":4")
			assert.Equal(t, []string{"__completeNoDesc", "pick", "cat", "--part", ""}, asked)
			require.Len(t, offered, 2, name)
			assert.Equal(t, name, shellWord(t, begun+offered[0]+begun))
			assert.Equal(t, name+" more", shellWord(t, begun+offered[1]+begun))
			assert.True(t, strings.HasPrefix(offered[1], offered[0]), "what is inserted of both is quoted: %q %q", offered[0], offered[1])
		}
	}
}

// What is typed is taken as it will be, without being run.
func TestBashReadsTheLine(t *testing.T) {
	for line, want := range map[string]string{
		`ferrule pick "my cat" $(touch ran) re`:        "pick|my cat|$(touch|ran)|re",
		`ferrule pick my\ cat '$(touch ran)' `:         "pick|my cat|$(touch ran)|",
		"ferrule pick `touch ran` \"a\\\"b\\$(x)\" ''": "pick|`touch|ran`|a\"b$(x)|",
		`A=b ferrule pick ~/cat 'it'"'"'s`:             "pick|/home/parts/cat|it's",
		`ferrule pick cat "Rear springs=A`:             "pick|cat|Rear springs=A",
		`ferrule pick cat --platform=H`:                "pick|cat|--platform=H",
	} {
		_, asked := completed(t, line, ":4")
		assert.Equal(t, strings.Split("__completeNoDesc|"+want, "|"), asked, line)
	}
}

// Readline takes a part of the word for what it completes: what follows the last sign that
// breaks words, or a quotation mark that is open.
func TestBashOffersTheRest(t *testing.T) {
	for line, want := range map[string]string{
		`ferrule pick cat Rear\ springs=A`: "Air",
		`ferrule pick cat "Rear springs=A`: "Rear springs=Air",
		`ferrule pick cat Rear\ springs="`: "Air",
		`ferrule pick cat "Rear springs"=`: "Air",
		`ferrule pick cat Re`:              `Rear\ springs=Air`,
	} {
		offered, _ := completed(t, line, "Rear springs=Air", ":4")
		assert.Equal(t, []string{want}, offered, line)
	}
	offered, _ := completed(t, "ferrule pick cat ", ":4", ":4")
	assert.Equal(t, []string{":4"}, offered, "the last line alone is a directive")
}
