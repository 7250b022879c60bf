package main

import (
	"bytes"
	"context"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"path"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"golang.org/x/tools/txtar"

	"ferrule/cmd/ferrule/cli"
	"ferrule/compiler/tidy/share"
	"ferrule/out/folder/found"
	"ferrule/out/markup"
	"ferrule/schema"
)

// mutations is how many broken catalogues the test makes; -mutations 2000 looks
// longer.
var mutations = flag.Uint64("mutations", 12, "how many broken catalogues to make")

// broken is how many the test makes: those that -mutations asks for, or some of the usual.
func broken(t *testing.T) uint64 {
	asked := false
	flag.Visit(func(f *flag.Flag) { asked = asked || f.Name == "mutations" })
	if asked || share.All() {
		return *mutations
	}
	t.Log("4 of them, since CI is not set")
	return 4
}

// TestBrokenCataloguesAreTold damages the cells of the samples at random. Whatever
// stands in a workbook is a finding: the status is never that of a fault of the
// program, and a draft of it has files of the right form.
func TestBrokenCataloguesAreTold(t *testing.T) {
	var cells []string
	var sources []*txtar.Archive
	for _, sample := range samples() {
		files, err := filepath.Glob(filepath.Join(sample, "source", "*.txtar"))
		require.NoError(t, err)
		require.NotEmpty(t, files)
		all := &txtar.Archive{}
		for _, f := range files {
			all.Files = append(all.Files, txtar.Parse([]byte(read(t, f))).Files...)
		}
		sources = append(sources, all)
		for _, f := range all.Files {
			cells = append(cells, strings.FieldsFunc(string(f.Data), func(r rune) bool { return r == '\t' || r == '\n' })...)
		}
	}
	cells = append(cells, "", "none", "any", "not", "n/a", "or", "+", "0 x", "99999999999999999999", "-1", "TRUE", "#N/A", "=A1", "2026-01-02",
		"not any", "from", "to 9999", "1e308", "K-1 or none", "with Front damper", strings.Repeat("x", 32000), "\u202e", "<b>&\"'", "1/0 in")
	made := uint64(0)
	trials := broken(t)
	for seed := range trials {
		r := rand.New(rand.NewPCG(seed, 1))
		broken := damaged(r, sources[r.IntN(len(sources))], cells)
		books, err := markup.Books(txtar.Format(broken))
		if err != nil {
			continue // no workbook can hold this
		}
		dir := filepath.Join(t.TempDir(), "catalogue")
		require.NoError(t, os.Mkdir(dir, 0o755))
		if err := markup.WriteAll(dir, books, markup.Options{Plain: true}); err != nil {
			continue // nor this
		}
		made++
		hold(t, fmt.Sprint("seed ", seed), dir)
	}
	require.Greater(t, made, trials/2, "most broken catalogues can be written")
}

// hold builds a draft and looks at its status and files.
func hold(t *testing.T, what, catalogue string) {
	t.Helper()
	site := filepath.Join(filepath.Dir(catalogue), "site")
	var stdout, stderr bytes.Buffer
	args := []string{"build", catalogue, "-o", site, "--draft", "--today", today}
	status := cli.Run(context.Background(), args, &stdout, &stderr)
	require.Contains(t, []int{0, 2}, status, "%s: %s", what, stderr.String())
	if status != 0 {
		return
	}
	for name, text := range found.Files(t, site) {
		if path.Ext(name) == ".json" {
			require.NoError(t, schema.ValidatePublished(schemaOf(name), []byte(text)), "%s: %s", what, name)
		}
	}
}

// damaged changes a few cells, rows and sheets.
func damaged(r *rand.Rand, in *txtar.Archive, cells []string) *txtar.Archive {
	out := &txtar.Archive{}
	for _, f := range in.Files {
		if r.IntN(60) == 0 {
			continue // a sheet less
		}
		lines := strings.Split(strings.TrimSuffix(string(f.Data), "\n"), "\n")
		for range r.IntN(4) {
			i := r.IntN(len(lines))
			row := strings.Split(lines[i], "\t")
			switch r.IntN(6) {
			case 0:
				lines = append(lines[:i:i], lines[min(i+1, len(lines)-1):]...)
			case 1:
				lines = append(lines, lines[i])
			default:
				row[r.IntN(len(row))] = cells[r.IntN(len(cells))]
				lines[i] = strings.Join(row, "\t")
			}
		}
		out.Files = append(out.Files, txtar.File{Name: f.Name, Data: []byte(strings.Join(lines, "\n") + "\n")})
	}
	return out
}
