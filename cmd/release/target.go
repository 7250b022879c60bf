package main

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
)

// target is what a program is built for, in Go's names.
type target struct{ os, arch string }

// targets lists what archives there are, in the order of SHA256SUMS.
func targets() []target {
	var all []target
	for _, system := range []string{"darwin", "linux", "windows"} {
		for _, arch := range []string{"amd64", "arm64"} {
			all = append(all, target{system, arch})
		}
	}
	return all
}

// folder is the one folder in the archive, named so that people know what they have.
func (t target) folder() string {
	system := t.os
	if system == "darwin" {
		system = "macos"
	}
	return "ferrule-" + system + "-" + t.arch
}

// archive is the file name: what a double click unpacks on that system.
func (t target) archive() string {
	if t.os == "linux" {
		return t.folder() + ".tar.gz"
	}
	return t.folder() + ".zip"
}

func (t target) pack() packer {
	if t.os == "linux" {
		return packTar
	}
	return packZip
}

func (t target) program() string {
	if t.os == "windows" {
		return "ferrule.exe"
	}
	return "ferrule"
}

// starter is a file beside the program that a double click runs, for systems on which one on the program
// itself opens a terminal and nothing more, or nothing at all.
func (t target) starter() []file {
	names := map[string]string{"darwin": "desk.command", "linux": "desk.sh"}
	name, ok := names[t.os]
	if !ok {
		return nil
	}
	return []file{{name: name, data: []byte("#!/bin/sh\ncd \"$(dirname \"$0\")\" && exec ./" + t.program() + " desk --ask\n"), run: true}}
}

// build gives the program for a target. Nothing of this machine goes into it: no paths,
// no C compiler, no time of a commit, no choice that the environment makes for others.
func build(ctx context.Context, root string, t target) ([]byte, error) {
	dir, err := os.MkdirTemp("", "release")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(dir)
	out := filepath.Join(dir, t.program())
	if _, err := run(ctx, root, t.environment(), "build", "-trimpath", "-buildvcs=false", "-mod=readonly", "-ldflags=-s -w", "-o", out, "./cmd/ferrule"); err != nil {
		return nil, err
	}
	return os.ReadFile(out)
}

func (t target) environment() []string {
	return append(os.Environ(), "GOOS="+t.os, "GOARCH="+t.arch, "GOAMD64=v1", "GOARM64=v8.0",
		"CGO_ENABLED=0", "GOFLAGS=", "GOEXPERIMENT=", "GOFIPS140=off", "GOWORK=off")
}

// run gives what the go command prints; what it says of an error is in the error.
func run(ctx context.Context, root string, env []string, args ...string) ([]byte, error) {
	cmd := exec.CommandContext(ctx, "go", args...)
	var said bytes.Buffer
	cmd.Dir, cmd.Env, cmd.Stderr = root, env, &said
	out, err := cmd.Output()
	if err != nil {
		return nil, fmt.Errorf("go %s: %w\n%s", args[0], err, said.Bytes())
	}
	return out, nil
}
