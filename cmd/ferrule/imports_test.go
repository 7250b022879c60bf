package main

import (
	"go/parser"
	"go/token"
	"io/fs"
	"path"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// module is the path that all our packages begin with.
const module = "ferrule"

// ban is a rule of the architecture: packages below folder import none below banned,
// except those below but. "" as banned stands for anything of ours.
type ban struct {
	folder string
	banned []string
	but    []string
	why    string
}

func bans() []ban {
	return []ban{
		{"sheets", []string{""}, []string{"sheets"}, "reading knows nothing of catalogues, so that a faster reader can take its place"},
		{"sheets/cell", []string{""}, nil, "every stage names cells, so this depends on nothing"},
		{"schema", []string{"compiler", "out"}, []string{"compiler/measure"}, "schemas judge rows and files before and after the compiler, which uses them"},
		{"compiler", []string{"out", "cmd"}, nil, "data goes one way: what is written depends on what was compiled"},
		{"compiler/finding", []string{"sheets", "out"}, []string{"sheets/cell"}, "a finding is about cells, however they were read"},
		{"compiler/intake/table", []string{"compiler", "out"}, []string{"compiler/intake/table", "compiler/intake/seal", "compiler/measure"}, "a sheet is made a table by what its columns hold, whatever is told of it and whatever its rows mean"},
		{"compiler/picture", []string{"compiler", "sheets"}, []string{"compiler/model", "compiler/parallel", "sheets/cell", "sheets/guard"}, "pictures are looked at whatever is told of them"},
		{"compiler/measure", []string{""}, nil, "sizes are arithmetic, which nothing else may change"},
		{"compiler/formula", []string{""}, []string{"compiler/measure", "schema/word"}, "arithmetic is pure: it knows names and quantities, nothing of parts or vehicles"},
		{"compiler/bind/grammar", []string{""}, []string{"schema/word"}, "how cells are written is a matter of texts: what is declared decides between readings, and whoever knows that asks"},
		{"compiler/bind/mend", []string{""}, nil, "what to write instead is a matter of texts: names are found and cells are read by whoever asks"},
		{"compiler/bind/lexicon", []string{"compiler/finding", "compiler/intake", "compiler/owed", "sheets", "schema"}, []string{"compiler/intake/table/glyph", "schema/word"}, "what a cell says follows from what is declared, wherever the cell stands and whatever is told of it"},
		{"compiler/space", []string{""}, nil, "set algebra is pure: it knows traits by number, nothing of workbooks"},
		{"compiler/model", []string{"out", "sheets"}, []string{"sheets/cell"}, "the catalogue is what workbooks state, not how they were read"},
		{"sheets/guard", []string{""}, nil, "a goroutine can begin anywhere, so this depends on nothing"},
		{"compiler/parallel", []string{""}, []string{"sheets/guard"}, "sharing work out knows nothing of the work"},
		{"compiler/wire", []string{"out", "sheets", "compiler/space", "compiler/bind", "compiler/judge/check", "compiler/ask", "compiler/release"}, []string{"sheets/cell"}, "how a thing of the catalogue looks in JSON is the same in every file and every answer, whoever writes it"},
		{"compiler/release/staff", []string{"out", "sheets", "schema", "compiler/intake", "compiler/bind", "compiler/judge/check", "compiler/ask"}, []string{"sheets/cell", "compiler/intake/written"}, "what a build wrote is read without the workbooks that it was built from"},
		{"compiler/reason", []string{""}, nil, "why a file cannot be read depends on no file of ours"},
		{"compiler/release/compare", []string{"out", "sheets", "schema", "compiler/bind", "compiler/judge/check"}, []string{"sheets/cell", "schema/word"}, "releases are compared as catalogues, from wherever they were read"},
		{"compiler/judge/identify", []string{"compiler/judge/check", "compiler/bind"}, nil, "what to ask about a vehicle follows from what is decided, whatever is wrong with it"},
		{"compiler/judge/check", []string{"out", "compiler/judge/check"}, nil, "a check stands alone, so that none depends on the order in which they run"},
		{"out", []string{"sheets", "compiler/bind", "compiler/judge/check"}, []string{"sheets/cell", "sheets/guard"}, "what is published comes from the catalogue and the findings, never past them from the workbooks"},
		{"compiler/judge/check", []string{"compiler/ask"}, nil, "questions are asked of what was decided, and no finding depends on one"},
		{"cmd/ferrule/man", []string{""}, nil, "manual pages are made from the commands alone, whatever those do"},
		{"out", []string{"compiler/space"}, nil, "what is published is made of the words of the catalogue: guides ask decide.Vehicles, and the algebra of a platform can change without them"},
		{"compiler/wire", []string{"compiler/space"}, nil, "JSON and texts are made of the words of the catalogue: no numbers of a platform's space leave it"},
		{"out", []string{"cmd"}, nil, "the command line uses what writes, and not the other way round"},
	}
}

// TestImports holds the imports of every file that is not a test against the rules.
func TestImports(t *testing.T) {
	imports := allImports(t)
	require.Contains(t, imports, "cmd/ferrule")
	for _, b := range bans() {
		seen := false
		for pkg, names := range imports {
			if !below(pkg, b.folder) || b.folder == "out" && copies(pkg) && b.banned[0] == "sheets" {
				continue
			}
			seen = true
			for _, name := range names {
				assert.False(t, b.forbids(name), "%s imports %s: %s", pkg, name, b.why)
			}
		}
		assert.True(t, seen, "the rule for %s is about no package", b.folder)
		assert.NotEmpty(t, b.why)
	}
}

// copies tells whether a package makes copies of workbooks, which it reads for that and publishes nothing of.
func copies(pkg string) bool {
	return pkg == "out/patch" || pkg == "out/mark" || pkg == "out/fix" || pkg == "out/aid"
}

func TestBans(t *testing.T) {
	out := ban{folder: "out", banned: []string{"sheets"}, but: []string{"sheets/cell"}}
	assert.True(t, out.forbids("sheets"))
	assert.True(t, out.forbids("sheets/zip"))
	assert.False(t, out.forbids("sheets/cell"))
	assert.False(t, out.forbids("sheetsy"))
	assert.True(t, ban{banned: []string{""}}.forbids("schema"))
}

// TestOnlyMainExits looks for other ways out of the program than its one os.Exit.
func TestOnlyMainExits(t *testing.T) {
	for pkg, files := range sources(t) {
		for _, f := range files {
			if strings.HasSuffix(f.path, "_test.go") || below(pkg, "cmd") {
				continue
			}
			assert.NotContains(t, f.text, "os.Exit(", f.path)
			assert.NotContains(t, f.text, "log.Fatal", f.path)
		}
	}
}

// TestGoroutinesAreGuarded looks for goroutines that begin anywhere but in guard: a panic in
// one of them would end the program with the status of input that cannot be read.
func TestGoroutinesAreGuarded(t *testing.T) {
	begins := regexp.MustCompile(`(?m)^\s*go (func\b|[\w.]+\()|sync\.WaitGroup|errgroup`)
	seen := false
	for pkg, files := range sources(t) {
		for _, f := range files {
			switch {
			case pkg == "sheets/guard":
				seen = seen || begins.MatchString(f.text)
			case strings.HasSuffix(f.path, "_test.go"), pkg == "compiler/tidy/yardstick": // for tests
			default:
				assert.NotRegexp(t, begins, f.text, f.path)
			}
		}
	}
	assert.True(t, seen, "the pattern finds none even where there are some")
}

func (b ban) forbids(name string) bool {
	for _, ok := range b.but {
		if below(name, ok) {
			return false
		}
	}
	for _, no := range b.banned {
		if no == "" || below(name, no) {
			return true
		}
	}
	return false
}

func below(pkg, folder string) bool { return pkg == folder || strings.HasPrefix(pkg, folder+"/") }

// allImports gives what each package of ours imports of ours, without the module's
// name.
func allImports(t *testing.T) map[string][]string {
	t.Helper()
	out := map[string][]string{}
	for pkg, files := range sources(t) {
		for _, f := range files {
			if strings.HasSuffix(f.path, "_test.go") {
				continue
			}
			parsed, err := parser.ParseFile(token.NewFileSet(), f.path, f.text, parser.ImportsOnly)
			require.NoError(t, err)
			out[pkg] = append(out[pkg], nil...) // a package without imports is one, too
			for _, spec := range parsed.Imports {
				name, err := strconv.Unquote(spec.Path.Value)
				require.NoError(t, err)
				if rest, ok := strings.CutPrefix(name, module+"/"); ok {
					out[pkg] = append(out[pkg], rest)
				}
			}
		}
	}
	return out
}

type source struct{ path, text string }

// sources gives the Go files of the module by package.
func sources(t *testing.T) map[string][]source {
	t.Helper()
	root := filepath.Join("..", "..")
	out := map[string][]source{}
	require.NoError(t, filepath.WalkDir(root, func(p string, e fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if e.IsDir() && p != root && (strings.HasPrefix(e.Name(), ".") || e.Name() == "node_modules") {
			return filepath.SkipDir
		}
		if !e.IsDir() && filepath.Ext(p) == ".go" {
			rel, err := filepath.Rel(root, p)
			if err != nil {
				return err
			}
			pkg := path.Dir(filepath.ToSlash(rel))
			out[pkg] = append(out[pkg], source{p, read(t, p)})
		}
		return nil
	}))
	return out
}
