package compiler_test

import (
	"context"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/tools/txtar"

	"ferrule/compiler"
	"ferrule/compiler/finding"
	"ferrule/compiler/kinds"
	"ferrule/compiler/release/compare"
	"ferrule/out/markup"
)

var update = flag.Bool("update", false, "write the reference page anew")

// TestCases compiles each case and matches its findings with the wanted ones, both
// ways. A case is a txtar archive of sheets that replace those of the base; its file
// `want` has a line for each finding:
//
//	place severity code "regular expression" {configurations} [follows] (accepted)
//
// All but the place and the code may be left out; a finding that is accepted must be
// wanted as accepted. What follows is listed as in `1 coverage-gap, 2 part-unused`. The place is that of the finding's first cell. A file `merge`
// has a line for each range that is merged over what stands in it:
//
//	c.xlsx Fitment A2:A5
//
// Files `colour` and `comment` give cells a fill, a colour of type or a comment.
// Files below `earlier/` are sheets of an earlier release, against which the case is held;
// then only what is not known is wanted.
func TestCases(t *testing.T) {
	files, err := filepath.Glob("testdata/cases/*/*.txtar")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, file := range files {
		t.Run(strings.TrimSuffix(strings.TrimPrefix(filepath.ToSlash(file), "testdata/cases/"), ".txtar"), func(t *testing.T) {
			t.Parallel()
			runCase(t, file)
		})
	}
}

// TestEveryCodeHasCases holds that each code has a case that fires, one that does not
// and one on the boundary, that the first has a finding of the code, and that nothing
// else lies about.
func TestEveryCodeHasCases(t *testing.T) {
	codes := map[string]bool{}
	for _, k := range kinds.All() {
		code := string(k.Code)
		codes[code] = true
		if code == "too-irregular" || code == "workbook-unreadable" || code == "marks-ignored" {
			// A budget is used up in the tests of compiler/judge, a damaged file is no text, and copies are
			// marked in the tests of out/mark.
			continue
		}
		for _, name := range []string{"fires", "silent", "boundary"} {
			file := filepath.Join("testdata/cases", code, name+".txtar")
			if a, err := txtar.ParseFile(file); assert.NoError(t, err, "%s has no case %q", code, name) {
				has := slices.ContainsFunc(wants(t, a), func(w want) bool { return w.code == code })
				assert.True(t, name == "boundary" || has == (name == "fires"), "%s: a finding of its code is wanted: %v", file, has)
			}
		}
	}
	dirs, err := os.ReadDir("testdata/cases")
	require.NoError(t, err)
	for _, d := range dirs {
		assert.True(t, codes[d.Name()], "testdata/cases/%s is for no code", d.Name())
	}
}

func runCase(t *testing.T, file string) {
	a, err := txtar.ParseFile(file)
	require.NoError(t, err)
	found := caseFindings(t, a, 0)
	match(t, wants(t, a), telling(filepath.Base(filepath.Dir(file)), wants(t, a), found))
	severities(t, found)
}

// caseFindings compiles a case, with empty rows above each sheet, and gives what it tells: of
// one that has an earlier release, what that does not have.
func caseFindings(t *testing.T, a *txtar.Archive, down int) []*finding.Finding {
	t.Helper()
	now, earlier := parted(a)
	compiled := func(a *txtar.Archive, down int) *compiler.Result {
		dir := t.TempDir()
		writeMoved(t, dir, a, down)
		res, err := compiler.Compile(context.Background(), compiler.Input{Paths: []string{dir}},
			compiler.Options{Today: "2027-03-01", Guides: true, Compare: earlier != nil})
		require.NoError(t, err)
		return res
	}
	res := compiled(now, down)
	if earlier == nil {
		return res.Findings
	}
	old := compiled(earlier, 0)
	fs, err := compare.Since(context.Background(), old.Release(),
		res.Release(), old.Findings, res.Findings, compare.Options{Today: "2027-03-01"})
	require.NoError(t, err)
	finding.Sort(fs)
	return slices.DeleteFunc(fs, func(f *finding.Finding) bool { return f.Known })
}

// parted gives the files of a case and those of its earlier release, nil for none.
func parted(a *txtar.Archive) (now, earlier *txtar.Archive) {
	now = &txtar.Archive{}
	for _, f := range a.Files {
		name, before := strings.CutPrefix(f.Name, "earlier/")
		switch {
		case !before:
			now.Files = append(now.Files, f)
		case earlier == nil:
			earlier = &txtar.Archive{}
			fallthrough
		default:
			earlier.Files = append(earlier.Files, txtar.File{Name: name, Data: f.Data})
		}
	}
	return now, earlier
}

// severities holds that findings have the severity that their code's description says,
// where it says one word.
func severities(t *testing.T, fs []*finding.Finding) {
	t.Helper()
	said := map[finding.Code]string{}
	for _, k := range kinds.All() {
		said[k.Code] = k.Severity
	}
	for _, f := range fs {
		if s := said[f.Code]; !strings.Contains(s, " ") {
			assert.Equal(t, s, f.Severity.String(), "%s", f.Code)
		}
	}
}

// telling leaves out notes that a case does not ask for: they are side effects of
// keeping it small, unless they are of its own code.
func telling(code string, wanted []want, all []*finding.Finding) []*finding.Finding {
	return slices.DeleteFunc(slices.Clone(all), func(f *finding.Finding) bool {
		return f.Severity == finding.Note && string(f.Code) != code &&
			!slices.ContainsFunc(wanted, func(w want) bool { return w.code == string(f.Code) })
	})
}

// writeCase writes the base with the case's sheets in place of its own. Files that are
// no sheets (a schema, a workbook in another format) are written as they stand.
func writeCase(t *testing.T, dir string, a *txtar.Archive) {
	t.Helper()
	writeMoved(t, dir, a, 0)
}

// writeMoved is writeCase with empty rows above each sheet.
func writeMoved(t *testing.T, dir string, a *txtar.Archive, down int) {
	t.Helper()
	base, err := txtar.ParseFile("testdata/base.txtar")
	require.NoError(t, err)
	merged := &txtar.Archive{}
	for _, f := range base.Files {
		if i := slices.IndexFunc(a.Files, func(x txtar.File) bool { return x.Name == f.Name }); i >= 0 {
			f = a.Files[i]
		}
		if len(f.Data) > 0 {
			merged.Files = append(merged.Files, f)
		}
	}
	for _, f := range a.Files {
		switch {
		case f.Name == "want", f.Name == "merge", isDress(f.Name):
		case !strings.Contains(f.Name, "/"):
			require.NoError(t, os.WriteFile(filepath.Join(dir, f.Name), f.Data, 0o644))
		case !slices.ContainsFunc(base.Files, func(x txtar.File) bool { return x.Name == f.Name }):
			merged.Files = append(merged.Files, f)
		}
	}
	books, err := markup.Books(txtar.Format(merged))
	require.NoError(t, err)
	moveBooks(books, down)
	require.NoError(t, markup.WriteAll(dir, books, markup.Options{Plain: true}))
	if i := slices.IndexFunc(a.Files, func(x txtar.File) bool { return x.Name == "merge" }); i >= 0 {
		mergeOver(t, dir, moveMerges(t, strings.Fields(string(a.Files[i].Data)), down))
	}
	dress(t, dir, a, down)
}

// want is a finding that a case asks for.
type want struct {
	place, severity, code, text, count, follows string
	accepted                                    bool
	line                                        string
}

var wantLine = regexp.MustCompile(`^(?:(.*?) )??(?:(error|warning|note) )?([a-z]+(?:-[a-z]+)*)(?: "(.*)")?(?: \{(\d+)\})?(?: \[(.*)\])?( \(accepted\))?$`)

func wants(t *testing.T, a *txtar.Archive) []want {
	t.Helper()
	i := slices.IndexFunc(a.Files, func(x txtar.File) bool { return x.Name == "want" })
	require.GreaterOrEqual(t, i, 0, "the case has no file want")
	var out []want
	for _, line := range strings.Split(strings.TrimSpace(string(a.Files[i].Data)), "\n") {
		if line == "" {
			continue
		}
		m := wantLine.FindStringSubmatch(line)
		require.NotNil(t, m, "not a wanted finding: %s", line)
		out = append(out, want{m[1], m[2], m[3], m[4], m[5], m[6], m[7] != "", line})
	}
	return out
}

func match(t *testing.T, wants []want, got []*finding.Finding) {
	t.Helper()
	for _, w := range wants {
		i := slices.IndexFunc(got, func(f *finding.Finding) bool { return fits(t, w, f) })
		if !assert.GreaterOrEqual(t, i, 0, "not told: %s", w.line) {
			continue
		}
		got = slices.Delete(slices.Clone(got), i, i+1)
	}
	for _, f := range got {
		assert.Fail(t, "not wanted: "+line(f))
	}
}

func fits(t *testing.T, w want, f *finding.Finding) bool {
	t.Helper()
	text, err := regexp.Compile(w.text)
	require.NoError(t, err)
	return string(f.Code) == w.code && place(f) == w.place && text.MatchString(f.Message) &&
		(w.severity == "" || w.severity == f.Severity.String()) &&
		(w.count == "" || w.count == count(f)) && (w.follows == "" || w.follows == follows(f)) && w.accepted == (f.Accepted != nil)
}

func place(f *finding.Finding) string {
	if len(f.Cells) == 0 {
		return ""
	}
	return f.Cells[0].Place.String()
}

func count(f *finding.Finding) string {
	if f.Region == nil || f.Region.Open().Configurations == nil {
		return ""
	}
	return f.Region.Open().Configurations.String()
}

func follows(f *finding.Finding) string {
	var words []string
	for _, x := range f.Follows {
		words = append(words, fmt.Sprintf("%d %s", x.Count, x.Code))
	}
	return strings.Join(words, ", ")
}

func line(f *finding.Finding) string {
	s := strings.TrimSpace(fmt.Sprintf("%s %s %s %q", place(f), f.Severity, f.Code, f.Message))
	if c := count(f); c != "" {
		s += " {" + c + "}"
	}
	if x := follows(f); x != "" {
		s += " [" + x + "]"
	}
	if f.Accepted != nil {
		s += " (accepted)"
	}
	return s
}
