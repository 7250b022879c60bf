//go:build !unix

package folder

// mounted is not told on this system: the exchange fails where something is mounted.
func mounted(string) bool { return false }

// writable is not told on this system: the exchange fails where a folder may not be changed.
func writable(string) bool { return true }
