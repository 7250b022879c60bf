//go:build !unix

package cli

import "io"

// columns knows no terminals on this system: text is not coloured and is wrapped at
// the usual width.
func columns(io.Writer) (width int, terminal bool) { return 0, false }
