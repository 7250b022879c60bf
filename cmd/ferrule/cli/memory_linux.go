package cli

import (
	"os"
	"strconv"
	"strings"
)

// peak gives the most memory in bytes that the process had so far: VmHWM, the high
// water mark of the resident set, of /proc/self/status (proc_pid_status(5)), which
// counts in kB of 1,024 bytes.
func peak() (bytes int64, known bool) {
	status, err := os.ReadFile("/proc/self/status")
	if err != nil {
		return 0, false
	}
	return highWater(string(status))
}

func highWater(status string) (bytes int64, known bool) {
	_, rest, ok := strings.Cut(status, "\nVmHWM:")
	if !ok {
		return 0, false
	}
	value, _, ok := strings.Cut(rest, " kB\n")
	if !ok {
		return 0, false
	}
	kilo, err := strconv.ParseInt(strings.TrimSpace(value), 10, 64)
	return kilo * 1024, err == nil
}
