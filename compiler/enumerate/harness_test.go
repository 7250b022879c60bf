package enumerate

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"ferrule/cmd/ferrule/cli"
	"ferrule/compiler"
	"ferrule/compiler/ask/gaps"
	picklist "ferrule/compiler/ask/pick"
	"ferrule/compiler/model"
	"ferrule/out/site"

	"github.com/stretchr/testify/require"
)

// compile has a folder built, as `ferrule build DIR -o OUT --draft --today
// 2027-03-01` does, and reads what was written.
func compile(t testing.TB, dir string) output {
	t.Helper()
	out, err := build(dir, filepath.Join(t.TempDir(), "out"))
	require.NoError(t, err)
	return out
}

// build has a folder built and reads what was written.
func build(dir, to string) (output, error) {
	if err := checkInto(dir, to); err != nil {
		return output{}, err
	}
	return load(to)
}

// checkInto builds a folder whose JSON the caller reads.
func checkInto(dir, to string) error {
	var stdout, stderr bytes.Buffer
	args := []string{"build", dir, "-o", to, "--draft", "--today", "2027-03-01"}
	if status := cli.Run(context.Background(), args, &stdout, &stderr); status != 0 {
		return fmt.Errorf("build ended with status %d\n%s%s", status, stdout.String(), stderr.String())
	}
	return nil
}

// publish builds a folder as if nothing stood in the way: no page is a draft.
func publish(dir, to string) (*published, error) {
	ctx := context.Background()
	res, err := compiler.Compile(ctx, compiler.Input{Paths: []string{dir}}, compiler.Options{Today: "2027-03-01", Guides: true})
	if err != nil {
		return nil, err
	}
	if _, err := site.Publish(ctx, to, nil, res, site.Options{}); err != nil {
		return nil, err
	}
	return readPublished(filepath.Join(to, "public"))
}

// bindOnce writes a catalogue and reads it for questions; its gaps are ranked on the day
// of build.
func bindOnce(c *catalogue) (*picklist.Lookup, *gaps.Ranking, error) {
	dir, err := os.MkdirTemp("", "asked")
	if err != nil {
		return nil, nil, err
	}
	defer os.RemoveAll(dir)
	if err := c.write(dir); err != nil {
		return nil, nil, err
	}
	ctx := context.Background()
	res, err := compiler.Compile(ctx, compiler.Input{Paths: []string{dir}}, compiler.Options{Unchecked: true})
	if err != nil {
		return nil, nil, err
	}
	ranking, err := gaps.Rank(ctx, res.Catalogue, gaps.Options{Today: "2027-03-01", Optional: true})
	return picklist.NewLookup(res.Catalogue), ranking, err
}

// picked asks for the pick list of some vehicles; `answers` are written as users write
// them.
func picked(t testing.TB, d *picklist.Lookup, platform string, answers ...string) *picklist.List {
	t.Helper()
	q, err := d.Query(platform, "", answers)
	require.NoError(t, err)
	l, err := d.List(context.Background(), q)
	require.NoError(t, err)
	return l
}

// asBox gives a box of the program as its JSON has it.
func asBox(b model.Box) box {
	out := box{Traits: map[string]inBox{}}
	for _, s := range b.Years {
		out.Years = append(out.Years, [2]int{s.From, s.To})
	}
	for _, t := range b.Traits {
		names, absent := t.Names()
		for _, n := range names {
			out.Traits[t.Trait.Name] = append(out.Traits[t.Trait.Name], &n)
		}
		if absent {
			out.Traits[t.Trait.Name] = append(out.Traits[t.Trait.Name], nil)
		}
	}
	return out
}

// tried tries rows, each written as users write it, on a folder.
func tried(t testing.TB, dir string, texts []string) *gaps.Effect {
	t.Helper()
	res, err := compiler.Compile(context.Background(), compiler.Input{Paths: []string{dir}}, compiler.Options{Unchecked: true})
	require.NoError(t, err)
	cat := res.Catalogue
	reader := gaps.NewReader(cat)
	var rows []*gaps.Row
	for _, text := range texts {
		row, err := reader.Row(text)
		require.NoError(t, err, text)
		rows = append(rows, row)
	}
	e, err := gaps.If(context.Background(), cat, rows)
	require.NoError(t, err)
	return e
}

// accepted has Accepted rows written into a new workbook of a folder, for all findings
// of a code that stand on the day of build, and gives the status.
func accepted(dir, code, file string) (status int, told string) {
	var stdout, stderr bytes.Buffer
	args := []string{"accept", dir, "--code", code, "--reason", "as found", "--by", "the test",
		"--today", "2027-03-01", "-o", filepath.Join(dir, file)}
	status = cli.Run(context.Background(), args, &stdout, &stderr)
	return status, stdout.String() + stderr.String()
}
