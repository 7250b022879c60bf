//go:build unix

package main

import (
	"bufio"
	"io"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ferrule/out/folder"
)

// started runs a command up to the first line that it writes to the stream that pipe gives. The command
// begins with the default for each signal, whoever has these tests run with some of them ignored, such as
// nohup: of a program that is run by another one, signals stay ignored and those that the other one catches do not.
func started(t *testing.T, cmd *exec.Cmd, pipe func() (io.ReadCloser, error)) (rest *bufio.Reader, line string) {
	t.Helper()
	caught := make(chan os.Signal, 1)
	signal.Notify(caught, syscall.SIGINT, syscall.SIGTERM, syscall.SIGHUP)
	defer signal.Stop(caught)
	out, err := pipe()
	require.NoError(t, err)
	require.NoError(t, cmd.Start())
	t.Cleanup(func() { cmd.Process.Kill() })
	rest = bufio.NewReader(out)
	line, err = rest.ReadString('\n')
	require.NoError(t, err)
	return rest, line
}

func TestSecondSignalEndsAtOnce(t *testing.T) {
	for _, s := range []syscall.Signal{syscall.SIGINT, syscall.SIGTERM, syscall.SIGHUP} {
		cmd := exec.Command("stubborn")
		out, _ := started(t, cmd, cmd.StdoutPipe)
		require.NoError(t, cmd.Process.Signal(s))
		line, err := out.ReadString('\n')
		require.NoError(t, err)
		assert.Equal(t, "stopped by "+s.String()+"\n", line)
		require.NoError(t, cmd.Process.Signal(s))
		require.Error(t, cmd.Wait())
		status := cmd.ProcessState.Sys().(syscall.WaitStatus)
		assert.True(t, status.Signaled() && status.Signal() == s, "%v", cmd.ProcessState)
	}
}

// A program that was started with a signal ignored, as nohup does, goes on ignoring it.
func TestIgnoredSignalsStayIgnored(t *testing.T) {
	cmd := exec.Command("sh", "-c", "trap '' HUP; exec stubborn")
	out, _ := started(t, cmd, cmd.StdoutPipe)
	require.NoError(t, cmd.Process.Signal(syscall.SIGHUP))
	require.NoError(t, cmd.Process.Signal(syscall.SIGTERM))
	line, err := out.ReadString('\n')
	require.NoError(t, err)
	assert.Equal(t, "stopped by terminated\n", line)
}

// TestSignalsStopABuild stops builds that wait for another one, which goes on.
func TestSignalsStopABuild(t *testing.T) {
	for s, status := range map[syscall.Signal]int{syscall.SIGHUP: 129, syscall.SIGINT: 130, syscall.SIGTERM: 143} {
		dir := filepath.Join(t.TempDir(), "site")
		held, err := folder.Hold(t.Context(), dir, nil, func() {})
		require.NoError(t, err)
		cmd := exec.Command("ferrule", "build", samples()[0], "-o", dir)
		errs, line := started(t, cmd, cmd.StderrPipe)
		assert.Equal(t, "another build publishes to "+dir+"; waiting until it has ended\n", line)
		require.NoError(t, cmd.Process.Signal(s))
		rest, err := io.ReadAll(errs)
		require.NoError(t, err)
		assert.Equal(t, "ferrule: stopped\n", string(rest))
		require.Error(t, cmd.Wait())
		assert.Equal(t, status, cmd.ProcessState.ExitCode())
		require.NoError(t, held.Put(t.Context()))
		require.NoError(t, held.Close())
		entries, err := os.ReadDir(filepath.Dir(dir))
		require.NoError(t, err)
		require.Len(t, entries, 1)
		assert.False(t, strings.HasPrefix(entries[0].Name(), "."))
	}
}
