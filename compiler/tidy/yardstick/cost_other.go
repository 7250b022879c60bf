//go:build !unix

package yardstick

import "time"

var started = time.Now()

// ProcessorTime is the time that passes, where the processor's is not to be had.
func ProcessorTime() time.Duration { return time.Since(started) }
