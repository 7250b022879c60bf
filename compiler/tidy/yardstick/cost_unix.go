//go:build unix

package yardstick

import (
	"syscall"
	"time"
)

// ProcessorTime is what the process has used so far: other work on the machine counts less
// than in time that passes.
func ProcessorTime() time.Duration {
	var use syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &use); err != nil {
		panic("getrusage: " + err.Error())
	}
	return time.Duration(use.Utime.Nano() + use.Stime.Nano())
}
