//go:build !unix && !windows

package cli

import "runtime"

// started knows nothing of how the program was started on this system.
func started() session { return session{system: runtime.GOOS, terminal: true} }
