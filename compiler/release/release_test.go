package release

import (
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler"
	"ferrule/compiler/finding"
	"ferrule/compiler/model"
)

// repository makes a git repository with the demo catalogue in one commit, works in it,
// and gives the folder for temporary files. Texts of more files of the catalogue may be
// given by their names.
func repository(t *testing.T, more ...[2]string) (temp string) {
	t.Helper()
	demo, err := filepath.Abs("../../testdata/demo")
	require.NoError(t, err)
	dir, temp := t.TempDir(), t.TempDir()
	t.Setenv("GIT_CONFIG_NOSYSTEM", "1")
	t.Setenv("HOME", dir)
	t.Setenv("TMPDIR", temp)
	require.NoError(t, os.CopyFS(filepath.Join(dir, "cat"), os.DirFS(demo)))
	t.Chdir(dir)
	for _, f := range more {
		require.NoError(t, os.WriteFile(filepath.Join("cat", f[0]), []byte(f[1]), 0o600))
	}
	for _, args := range []string{"init -q", "add cat", "-c user.name=tester -c user.email=t@example.com commit -q -m Demo"} {
		out, err := exec.Command("git", strings.Fields(args)...).CombinedOutput()
		require.NoError(t, err, "%s", out)
	}
	return temp
}

// TestNothingIsLeft holds that what is written for a revision is gone afterwards, whether
// or not it could be read.
func TestNothingIsLeft(t *testing.T) {
	temp := repository(t)
	r, err := Open(context.Background(), "HEAD:cat", compiler.Options{Today: "2027-03-01"})
	require.NoError(t, err)
	assert.Equal(t, "revision", r.State.Kind)
	assert.Equal(t, 3, r.State.Workbooks)
	assert.NotEmpty(t, r.Guides)
	for _, name := range []string{"HEAD:cat/source", "HEAD:dog", "HEAD:", "dog:cat"} {
		_, err = Open(context.Background(), name, compiler.Options{})
		assert.ErrorContains(t, err, name)
		assert.NotContains(t, err.Error(), temp, "the user knows nothing of this folder")
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	_, err = Open(ctx, "HEAD:cat", compiler.Options{})
	assert.ErrorIs(t, err, context.Canceled)
	left, err := os.ReadDir(temp)
	require.NoError(t, err)
	assert.Empty(t, left)
}

// TestErrorsNameTheRevision holds that what stops the compiler is told of the path that the
// user wrote, and not of the folder that a revision is written to.
func TestErrorsNameTheRevision(t *testing.T) {
	temp := repository(t, [2]string{"parts.schema.json", `{"description": "` + strings.Repeat("x", 1<<20) + `"}`})
	_, err := Open(t.Context(), "HEAD:cat", compiler.Options{})
	assert.ErrorContains(t, err, "HEAD:cat cannot be read: parts.schema.json is larger than 1 MB")
	assert.NotContains(t, err.Error(), temp)
}

// TestCancelledWhileCompiling holds that whoever stops the run gets the error of the
// context, however the release is called.
func TestCancelledWhileCompiling(t *testing.T) {
	repository(t)
	for _, name := range []string{"cat", "HEAD:cat"} {
		ctx, cancel := context.WithCancel(t.Context())
		_, err := Open(ctx, name, compiler.Options{Progress: func(compiler.Stage) { cancel() }})
		assert.ErrorIs(t, err, context.Canceled, name)
	}
}

// TestOutOfTimeWhileCompiling is the same for a time that has run out.
func TestOutOfTimeWhileCompiling(t *testing.T) {
	repository(t)
	ctx, cancel := context.WithDeadline(t.Context(), time.Time{})
	defer cancel()
	_, err := compiled(ctx, "HEAD:cat", "cat", compiler.Options{})
	assert.ErrorIs(t, err, context.DeadlineExceeded)
}

func TestWithoutGit(t *testing.T) {
	repository(t)
	t.Setenv("PATH", t.TempDir())
	_, err := Open(context.Background(), "HEAD:cat", compiler.Options{})
	assert.EqualError(t, err, "HEAD:cat cannot be read: the program git is not installed")
}

// TestNoArgumentIsAnOption holds that nothing which the user writes can reach git as an
// option.
func TestNoArgumentIsAnOption(t *testing.T) {
	for _, rev := range []string{"", "-", "--", "--output=x", "-n"} {
		_, err := newGit(context.Background(), rev+":cat", rev)
		assert.ErrorContains(t, err, "revision", rev)
	}
}

// TestWhatCannotBeCompared holds that a run that has lost rows is no release.
func TestWhatCannotBeCompared(t *testing.T) {
	for _, r := range []*compiler.Result{
		{Findings: []*finding.Finding{{Code: finding.WorkbookUnreadable, Message: "it is torn"}}},
		{Findings: []*finding.Finding{{Code: finding.SheetMissing, Message: "it is torn"}}, Catalogue: &model.Catalogue{Undeclared: true}},
	} {
		_, err := of(r, "cat", "workbooks")
		assert.EqualError(t, err, "cat cannot be compared: it is torn")
	}
	ok := &compiler.Result{Findings: []*finding.Finding{{Code: finding.SheetMissing}}, Catalogue: &model.Catalogue{}}
	_, err := of(ok, "cat", "workbooks")
	assert.NoError(t, err, "no vehicle depends on the sheet")
}
