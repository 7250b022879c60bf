// Package browser finds what tests look at pages with: node, Chromium and the node modules that
// out/guide/testdata/browser pins. It is for tests only.
package browser

import (
	"os"
	"os/exec"
	"path/filepath"
)

// Find gives the tools: Chromium is that of FERRULE_CHROMIUM, where it is set, and modules stand in
// FERRULE_NODE_MODULES or in the folder, and need hold some. missing says what is not there.
func Find(folder string, needed ...string) (node, chromium, modules, missing string) {
	node, err := exec.LookPath("node")
	if err != nil {
		return "", "", "", "node"
	}
	for _, name := range []string{os.Getenv("FERRULE_CHROMIUM"), "chromium", "chromium-browser", "google-chrome"} {
		if found, err := exec.LookPath(name); err == nil && chromium == "" {
			chromium = found
		}
	}
	if chromium == "" {
		return "", "", "", "chromium"
	}
	modules = os.Getenv("FERRULE_NODE_MODULES")
	if modules == "" {
		modules = folder
	}
	for _, m := range needed {
		if _, err := os.Stat(filepath.Join(modules, m, "package.json")); err != nil {
			return "", "", "", "the node module " + m
		}
	}
	return node, chromium, modules, ""
}
