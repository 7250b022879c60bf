//go:build unix && !linux

package folder

// mounted tells whether something is mounted at the folder, so that it cannot be renamed.
func mounted(path string) bool { return otherDevice(path) }
