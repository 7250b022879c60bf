package main

import (
	"archive/tar"
	"bytes"
	"compress/gzip"
	"debug/buildinfo"
	"errors"
	"io"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/compiler/tidy/share"
)

// unpack puts a .tar.gz into an empty folder, and gives the one folder in it.
func unpack(t *testing.T, data []byte, folder string) string {
	t.Helper()
	dir := t.TempDir()
	plain, err := gzip.NewReader(bytes.NewReader(data))
	require.NoError(t, err)
	for r := tar.NewReader(plain); ; {
		h, err := r.Next()
		if errors.Is(err, io.EOF) {
			return filepath.Join(dir, folder)
		}
		require.NoError(t, err)
		content, err := io.ReadAll(r)
		require.NoError(t, err)
		name := filepath.Join(dir, filepath.FromSlash(h.Name))
		require.NoError(t, os.MkdirAll(filepath.Dir(name), 0o755))
		require.NoError(t, os.WriteFile(name, content, fs.FileMode(h.Mode)))
	}
}

// status runs the program that was unpacked, with nothing of this machine to lean on.
func status(t *testing.T, dir string, args ...string) (int, string) {
	t.Helper()
	cmd := exec.Command(filepath.Join(dir, "ferrule"), args...)
	cmd.Dir, cmd.Env = dir, []string{"PATH=", "HOME=" + dir}
	out, err := cmd.CombinedOutput()
	var exit *exec.ExitError
	if !errors.As(err, &exit) {
		require.NoError(t, err)
	}
	return cmd.ProcessState.ExitCode(), string(out)
}

// TestUnpackedProgramRuns takes the ways that the README begins with, without Go. Compiling all that the
// program stands on anew, as an archive does, takes a minute, so that it is for CI.
func TestUnpackedProgramRuns(t *testing.T) {
	if runtime.GOOS != "linux" {
		t.Skip("the archives of other systems are not .tar.gz, and are not run here")
	}
	if !share.All() {
		t.Skip("no archive is made, since CI is not set")
	}
	here := target{runtime.GOOS, runtime.GOARCH}
	data, err := archive(t.Context(), "../..", here)
	require.NoError(t, err)
	dir := unpack(t, data, here.folder())

	code, out := status(t, dir, "check", "testdata/demo")
	assert.Equal(t, 1, code, "the demo has two gaps left: %s", out)
	assert.Contains(t, out, "coverage-gap")
	code, out = status(t, dir, "build", "testdata/demo", "-o", "site")
	assert.Zero(t, code, out)
	assert.FileExists(t, filepath.Join(dir, "site", "public", "index.html"))
	code, out = status(t, dir, "new", "catalogue")
	require.Zero(t, code, out)
	code, out = status(t, dir, "check", "catalogue")
	assert.Zero(t, code, out)

	holdsLicences(t, dir)
	again, err := archive(t.Context(), elsewhere(t), here)
	require.NoError(t, err)
	assert.True(t, bytes.Equal(data, again), "the same tree in another folder gives other bytes")
}

// holdsLicences holds that every module of the program has its terms beside it.
func holdsLicences(t *testing.T, dir string) {
	t.Helper()
	info, err := buildinfo.ReadFile(filepath.Join(dir, "ferrule"))
	require.NoError(t, err)
	require.NotEmpty(t, info.Deps)
	text, err := os.ReadFile(filepath.Join(dir, "LICENSES.txt"))
	require.NoError(t, err)
	assert.Contains(t, string(text), "\n==== Go standard library "+info.GoVersion+": LICENSE\n")
	for _, dep := range info.Deps {
		assert.Contains(t, string(text), "\n"+dep.Path+" "+dep.Version+"\n")
		assert.Contains(t, string(text), "\n==== "+dep.Path+" "+dep.Version+": LICENSE")
	}
}

// elsewhere is a copy of the source in another folder, whose files are of another time.
func elsewhere(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	for _, name := range []string{"cmd", "compiler", "out", "schema", "sheets", "testdata/demo", "testdata/existing", "testdata/fleet"} {
		require.NoError(t, os.CopyFS(filepath.Join(dir, name), os.DirFS(filepath.Join("../..", name))))
	}
	for _, name := range []string{"go.mod", "go.sum", "README.md", "DEVELOPERS.md", ".pre-commit-hooks.yaml"} {
		data, err := os.ReadFile(filepath.Join("../..", name))
		require.NoError(t, err)
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), data, 0o600))
	}
	return dir
}
