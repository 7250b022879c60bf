package main

import (
	"archive/zip"
	"bytes"
	"context"
	"encoding/json"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/cmd/ferrule/cli"
	"ferrule/out/markup"
)

// Names as an attacker would have them: what a terminal obeys, what turns the direction of
// text, what has no width, and what build servers take for commands.
const (
	oddSigns = "\x1b[31m\x1b]8;;x\x07\r\u202e\u2066\u200b\ufeff\u2028\u0085\u009b2J\u0090\u00ad\u2060\u200f\ufe0f\u3164\U000e0001\x7f##[error]##vso[task]"
	oddLines = "\n::error::odd\n##[error]\r\n \t::stop-commands::odd\n"
)

// standIn keeps the place of a control character until the workbook is written: XML has none.
func standIn(text string) string {
	return strings.Map(func(r rune) rune {
		if r < ' ' && r != '\n' && r != '\t' {
			return 0xe100 + r
		}
		return r
	}, text)
}

// oddBook writes a catalogue in which every name, value and word goes on with the signs. In it
// cells are right, disagree, are left out, and name what is not there.
func oddBook(t *testing.T, path, odd string) {
	t.Helper()
	odd = standIn(odd)
	var sheets []markup.Sheet
	for _, s := range []struct{ name, rows string }{
		{"Settings", "Setting|Value;title|T~;publisher|P~;contact|c~;bogus~|v~;release|r~"},
		{"Platforms", "Platform|Years|Text~;H7~|2001-2002|x~;H8~|x~|"},
		{"Traits", "Trait|Value|Kind|Question|How to tell;T~|x~|choice|q~|h~;T~|y~|choice|q~|h~;U~|x~|choice||;U~|y~|choice||"},
		{"Vehicles", "Platform|T~|U~|On the road;H7~|any|any|5;Q~|zz~|any|1"},
		{"Breaks", "Platform|Trait|Value|Years|U~;H7~|T~|y~|2002|any;Z~|y~|x~||odd~"},
		{"Positions", "Position|Quantity|Axle;P1~|1|w~;P2~|1|;P3~|2|"},
		{"Parts", "Part|Name|Picture|Status|Internal~;A-1~|a~|p~|s~|i~;B-2~|b|../~||;C-3|c||superseded|"},
		{"References", "Part|Number|Source;A-1~|N1~|s~;Z-9~|N2~|s~"},
		{"Kits", "Kit|Part|Quantity;A-1~|B-2~|2;B-2~|A-1~|1"},
		{"Compatibility", "Part|With|Effect|Reason;A-1~|C-3|require|r~;B-2~|A-1~|forbid|r~;C-3||caution|r~;W~|Z~|odd~|r~"},
		{"Limits", "Limit|Left|Must be|Right;L~|a~ + b~|at least|1~;M~|1|at most|0"},
		{"Fitment a", "Platform|T~|U~|P1~|P2~|P3~|bogus~|Reason;H7~|x~||A-1~||B-2~|x~|r~;H7~|y~|x~|B-2~|none|C-3||;H7~|x~||C-3||none|x|;Z~|u~||W~|none~|2 x||"},
		{"Accepted", "Finding|Platform|Position|Reason|By|Until;coverage-gap|H7~|P2~|r~|b~|2999-01-01;odd~|X~|Y~|r~|b~|z~"},
	} {
		var rows [][]string
		for row := range strings.SplitSeq(strings.ReplaceAll(s.rows, "~", odd), ";") {
			rows = append(rows, strings.Split(row, "|"))
		}
		sheets = append(sheets, markup.Table(s.name, rows[0], rows[1:]))
	}
	var plain bytes.Buffer
	require.NoError(t, (&markup.Book{Name: "c.xlsx", Sheets: sheets}).Write(&plain, markup.Options{Plain: true}))
	f, err := os.Create(path)
	require.NoError(t, err)
	defer f.Close()
	rewrite(t, f, plain.Bytes())
}

// oddChart writes a chart in a shape of its own, with odd signs in all that it says.
func oddChart(t *testing.T, path, odd string) {
	t.Helper()
	s := markup.Table("Chart", []string{"Part no.", "Description" + odd, "Place", "H7" + odd + " 2004-2010", "H9 2004-2010", "Notes"},
		[][]string{{"MLP-101", "d" + odd, "P1" + odd, "x", "", "except with " + odd}, {"MLP-102", "e" + odd, "P2", "", "x*", "n" + odd}, {"* only " + odd}})
	var plain bytes.Buffer
	require.NoError(t, (&markup.Book{Name: "c.xlsx", Sheets: []markup.Sheet{s}}).Write(&plain, markup.Options{Plain: true}))
	f, err := os.Create(path)
	require.NoError(t, err)
	defer f.Close()
	rewrite(t, f, plain.Bytes())
}

// rewrite copies a workbook and puts control characters in their places as spreadsheet
// programs do (ECMA-376, Part 1, 22.9.2.19).
func rewrite(t *testing.T, w io.Writer, book []byte) {
	t.Helper()
	in, err := zip.NewReader(bytes.NewReader(book), int64(len(book)))
	require.NoError(t, err)
	out := zip.NewWriter(w)
	for _, f := range in.File {
		r, err := f.Open()
		require.NoError(t, err)
		text, err := io.ReadAll(r)
		require.NoError(t, err)
		for c := range rune(' ') {
			text = bytes.ReplaceAll(text, []byte(string(0xe100+c)), fmt.Appendf(nil, "_x%04X_", c))
		}
		part, err := out.Create(f.Name)
		require.NoError(t, err)
		_, err = part.Write(text)
		require.NoError(t, err)
	}
	require.NoError(t, out.Close())
}

var ownCommand = regexp.MustCompile(`^::(error|warning|notice) (file=[^:,]*,)?title=[a-z-]+::`)

// mustBeVisible holds what a command wrote: no sign that a terminal obeys or that nobody sees,
// and no line that a build server takes for a command of ours.
func mustBeVisible(t *testing.T, text string, commands bool) {
	t.Helper()
	assert.True(t, utf8.ValidString(text), "bytes that are no text: %q", text)
	for _, r := range text {
		hidden := unicode.IsControl(r) && r != '\n' && r != '\t' || unicode.In(r, unicode.Cf, unicode.Zl, unicode.Zp) || r == 0xfe0f || r == 0x3164
		if !assert.False(t, hidden, "%U in %q", r, text) {
			return
		}
	}
	for line := range strings.SplitSeq(text, "\n") {
		if commands && ownCommand.MatchString(line) {
			continue
		}
		assert.False(t, strings.HasPrefix(strings.TrimSpace(line), "::"), "%q", line)
	}
	assert.NotContains(t, text, "##[")
	assert.NotContains(t, text, "##vso[")
}

// oddFolder makes two catalogues and what else commands are asked about, and goes there.
func oddFolder(t *testing.T) (platform string) {
	t.Helper()
	t.Chdir(t.TempDir())
	for _, dir := range []string{"signs" + oddSigns, "lines", "no\xff\n::error::book"} {
		if os.Mkdir(dir, 0o755) != nil {
			t.Skip("this file system takes no such names")
		}
	}
	require.NoError(t, os.Symlink("signs"+oddSigns, "signs"))
	oddBook(t, filepath.Join("signs", "c\u202e\x1b[2J.xlsx"), oddSigns)
	oddBook(t, filepath.Join("lines", "c\n::error::c.xlsx"), oddLines)
	require.NoError(t, os.Mkdir("charts", 0o755))
	oddChart(t, filepath.Join("charts", "signs\u202e\x1b[2J.xlsx"), oddSigns)
	oddChart(t, filepath.Join("charts", "lines\n::error::c.xlsx"), oddLines)
	require.NoError(t, os.WriteFile("torn\x1b[2J\n::x.xlsx", []byte("PK\x03\x04 torn"), 0o644))
	require.NoError(t, os.Mkdir("theme", 0o755))
	require.NoError(t, os.WriteFile("theme/x\x1b.css", nil, 0o644))
	return "H7" + oddSigns
}

// oddLinesOf lists command lines, with all commands and formats, over what oddFolder made.
func oddCommands(h7 string) [][]string {
	odd := "\x1b[2J\xff\u202e\n::error::odd"
	out := [][]string{{}, {odd}, {"--" + odd}, {"-" + odd}, {"help", odd}, {"help", "check"}, {"version"}, {"version", odd}, {"explain", odd}, {"explain"},
		{"new", "new" + odd}, {"new", "signs"}, {"man", "man" + odd}, {"completion", odd}, {"completion", "bash"},
		{"cells", odd}, {"cells", "--format", odd, odd}, {"cells", "torn\x1b[2J\n::x.xlsx"}, {"check", "torn\x1b[2J\n::x.xlsx"},
		{"layout", odd}, {"layout", "torn\x1b[2J\n::x.xlsx"}, {"check", "charts"}, {"layout", "charts/lines\n::error::c.xlsx", "-o", "l" + odd + ".xlsx"},
		{"check", odd}, {"check", "no\xff\n::error::book"}, {"check", "signs", "--fail-on", odd}, {"check", "signs", "--today", odd}, {"check", "signs", "-v"},
		{"check", "signs", "--since", odd}, {"check", "signs", "--since", odd + ":x"}, {"diff", odd, "signs"}, {"diff", "signs", "lines", "--format", odd},
		{"build", "signs", "-o", "site" + odd}, {"build", "signs", "-o", "site" + odd, "--draft"}, {"build", "signs", "-o", "site", "--theme", odd}, {"build", "signs", "-o", "site", "--theme", "theme"},
		{"desk", odd, "--no-browser"}, {"desk", "signs", "--no-browser", "--today", odd},
		{"accept", "signs", "--code", odd}, {"accept", "signs", "--code", "all", "--reason", odd, "--by", "b"},
		{"pick", odd}, {"pick", "signs", odd}, {"pick", "signs", "--year", odd}, {"gaps", "signs", "--if", odd}, {"gaps", "signs", "--top", odd},
		{"fleet", "signs", odd}, {"fleet", "signs", "signs"}, {"fleet", "signs", "torn\x1b[2J\n::x.xlsx"}, {"fleet", "signs", "signs", "--sheet", odd}, {"fleet", "signs", "signs", "-o", odd}}
	for _, dir := range []string{"signs", "lines", "signs" + oddSigns} {
		for _, format := range []string{"text", "json", "jsonl", "sarif", "junit", "github"} {
			out = append(out, []string{"check", dir, "--format", format}, []string{"check", dir, "--format", format, "--since", "signs"})
		}
		for _, format := range []string{"text", "json", "markdown"} {
			out = append(out, []string{"diff", dir, "signs", "--format", format}, []string{"diff", "lines", dir, "--format", format})
		}
		for _, format := range []string{"text", "json"} {
			for _, args := range [][]string{{"pick"}, {"pick", "--platform", h7}, {"pick", "--platform", h7, "--year", "2001", "T" + oddSigns + "=x" + oddSigns}, {"pick", "--platform", h7, "--year", "1990"},
				{"pick", "--platform", h7, "--part", "Z"}, {"why"}, {"why", "--platform", h7}, {"why", "--platform", h7, "--year", "2001", "--part", "N1" + oddSigns}, {"where", "N1" + oddSigns, "Z" + oddSigns}, {"pick", "--platform", h7, "--read"}, {"gaps"}, {"gaps", "--position", "Z"},
				{"gaps", "--if", "A-1" + oddSigns + " in P2" + oddSigns + " where Years = 2001"}, {"vehicles"}, {"vehicles", "--platform", "Z"}, {"vehicles", "--propose"},
				{"accept", "--code", "all", "--reason", "r", "--by", "b", "--broad"}, {"accept", "--code", "all", "--reason", "r", "--by", "b", "--platform", "Z"}} {
				out = append(out, append([]string{args[0], dir, "--format", format}, args[1:]...))
			}
		}
		out = append(out, []string{"mark", dir, "-o", "marked" + odd + dir}, []string{"fix", dir, "--list"}, []string{"fix", dir, "--list", "--cell", odd})
		out = append(out, []string{"accept", dir, "--code", "all", "--reason", "r", "--by", "b", "-o", "rows" + odd + dir + ".xlsx"},
			[]string{"vehicles", dir, "-o", "v" + odd + dir + ".xlsx"}, []string{"vehicles", dir, "-o", odd},
			[]string{"__complete", "pick", dir, "--platform", ""}, []string{"__complete", "pick", dir, ""}, []string{"__complete", "why", dir, "--part", ""},
			[]string{"__complete", "gaps", dir, "--position", ""}, []string{"__complete", "gaps", dir, "--" + odd, ""}, []string{"__completeNoDesc", odd, odd})
	}
	books, _ := filepath.Glob("*/*.xlsx")
	for _, b := range books {
		out = append(out, []string{"fleet", "signs", b}, []string{"fleet", "signs", b, "--format", "csv"}, []string{"fleet", "lines", b, "--format", "json"}, []string{"fleet", "lines", b, "--format", "csv", "--sheet", "Not read"})
		out = append(out, []string{"cells", b}, []string{"cells", "--format", "json", b},
			[]string{"layout", b}, []string{"layout", b, "--format", "json"}, []string{"layout", b, "--with", "signs"})
	}
	return out
}

// TestNothingHiddenIsSaid runs every command on names that a terminal would obey.
func TestNothingHiddenIsSaid(t *testing.T) {
	h7 := oddFolder(t)
	own, err := os.Create("stderr") // the library writes there by itself
	require.NoError(t, err)
	stderrOfTest := os.Stderr
	os.Stderr = own
	defer func() { os.Stderr = stderrOfTest }()
	ran, shown := map[string]bool{}, 0
	for _, args := range oddCommands(h7) {
		t.Run(fmt.Sprintf("%q", args), func(t *testing.T) {
			var stdout, stderr bytes.Buffer
			status := cli.Run(context.Background(), args, &stdout, &stderr)
			assert.Less(t, status, 3, stderr.String())
			line := strings.Join(args, " ")
			mustBeVisible(t, stdout.String(), strings.Contains(line, "--format github"))
			mustBeVisible(t, stderr.String(), false)
			mustBeWhole(t, line, stdout.Bytes())
			shown += strings.Count(stdout.String(), "U+202E") + strings.Count(stdout.String(), `\u202e`)
		})
		if len(args) > 0 {
			ran[args[0]] = true
		}
	}
	said, err := os.ReadFile("stderr")
	require.NoError(t, err)
	mustBeVisible(t, string(said), false)
	assert.Greater(t, shown, 1000, "names do come out")
	for _, name := range commandNames(t) {
		assert.True(t, ran[name], "%s is run with no odd name", name)
	}
}

// mustBeWhole holds that escaping leaves JSON and XML what they are.
func mustBeWhole(t *testing.T, line string, text []byte) {
	t.Helper()
	switch {
	case len(text) == 0:
	case strings.Contains(line, "--format json") && !strings.Contains(line, "jsonl") || strings.Contains(line, "--format sarif"):
		assert.True(t, json.Valid(text), "%s", text)
	case strings.Contains(line, "--format junit"):
		d := xml.NewDecoder(bytes.NewReader(text))
		var err error
		for err == nil {
			_, err = d.Token()
		}
		assert.True(t, errors.Is(err, io.EOF), "%v", err)
	}
}

// commandNames lists the commands as help does.
func commandNames(t *testing.T) []string {
	t.Helper()
	var help bytes.Buffer
	require.Zero(t, cli.Run(context.Background(), []string{"help"}, &help, io.Discard))
	var out []string
	for _, m := range regexp.MustCompile(`(?m)^  ([a-z]+)  +[A-Z]`).FindAllStringSubmatch(help.String(), -1) {
		out = append(out, m[1])
	}
	require.Greater(t, len(out), 10)
	return out
}
