//go:build unix

package folder

import (
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"strconv"
	"strings"
	"sync/atomic"
	"syscall"
	"testing"

	"github.com/stretchr/testify/require"
)

// childEnv holds what a child process does, which is this test's program run again.
const childEnv = "FERRULE_FOLDER_CHILD"

func TestMain(m *testing.M) {
	if told := os.Getenv(childEnv); told != "" {
		os.Exit(child(strings.Split(told, "\n")))
	}
	os.Exit(m.Run())
}

// order is what a child is told: to publish a build of that number to dir, and where to be
// killed on the way.
type order struct {
	dir     string
	build   int
	renames bool   // as on a file system that cannot exchange folders
	step    string // to be killed at, "" for any
	at      int    // which one of them, from 1; 0: never
	spin    uint64 // how long to go on meanwhile, in turns of a loop
	log     string // a file to note in when the folder is held, "" for none
}

func (o order) String() string {
	return fmt.Sprintf("%s\n%d\n%t\n%s\n%d\n%d\n%s", o.dir, o.build, o.renames, o.step, o.at, o.spin, o.log)
}

func orderOf(told []string) order {
	o := order{dir: told[0], renames: told[2] == "true", step: told[3], log: told[6]}
	o.build, _ = strconv.Atoi(told[1])
	o.at, _ = strconv.Atoi(told[4])
	o.spin, _ = strconv.ParseUint(told[5], 10, 64)
	return o
}

// child publishes.
func child(told []string) int {
	o := orderOf(told)
	if err := o.publish(); err != nil {
		fmt.Fprintln(os.Stderr, err)
		return 1
	}
	return 0
}

// publish does what is ordered in this process.
func (o order) publish() error {
	h, err := hold(context.Background(), o.disk(), o.dir, nil, func() {})
	if err != nil {
		return err
	}
	return errors.Join(o.note("begins"), fill(h, o.build), o.note("ends"), h.Close())
}

func fill(h *Held, build int) error {
	for _, name := range pages() {
		if err := h.File(name, page(build)); err != nil {
			return err
		}
	}
	return h.Put(context.Background())
}

func (o order) note(what string) error {
	if o.log == "" {
		return nil
	}
	f, err := os.OpenFile(o.log, os.O_APPEND|os.O_WRONLY|os.O_CREATE, 0o644)
	if err != nil {
		return err
	}
	_, err = fmt.Fprintf(f, "%d %s\n", o.build, what)
	return errors.Join(err, f.Close())
}

// disk kills the process at a step, or a random while later.
func (o order) disk() disk {
	var seen atomic.Int64
	return disk{before: func(step, _ string) error {
		if o.at > 0 && (o.step == "" || o.step == step) && seen.Add(1) == int64(o.at) {
			die(o.spin)
		}
		if o.renames && step == stepExchange {
			return errors.ErrUnsupported
		}
		return nil
	}}
}

// die kills the process, at once or while it goes on.
func die(spin uint64) {
	kill := func() { syscall.Kill(os.Getpid(), syscall.SIGKILL) }
	if spin == 0 {
		kill()
		select {}
	}
	go func() {
		r := rand.New(rand.NewPCG(spin, spin))
		for range spin {
			r.Uint64()
		}
		kill()
	}()
}

// start runs a child.
func (o order) start(t *testing.T) *exec.Cmd {
	t.Helper()
	cmd := exec.Command(os.Args[0])
	cmd.Env = append(os.Environ(), childEnv+"="+o.String())
	cmd.Stderr = &strings.Builder{}
	require.NoError(t, cmd.Start())
	return cmd
}

// run runs a child to its end and tells whether it was killed. It fails on its own never.
func (o order) run(t *testing.T) (killed bool) {
	t.Helper()
	cmd := o.start(t)
	err := cmd.Wait()
	if err == nil {
		return false
	}
	status, ok := cmd.ProcessState.Sys().(syscall.WaitStatus)
	require.True(t, ok && status.Signaled() && status.Signal() == syscall.SIGKILL, "%v: %v", err, cmd.Stderr)
	return true
}
