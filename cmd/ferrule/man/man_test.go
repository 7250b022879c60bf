package man

import (
	"testing"

	"github.com/spf13/cobra"
	"github.com/stretchr/testify/assert"
)

func TestPage(t *testing.T) {
	root := &cobra.Command{Use: "tool", Short: "Do things", Run: func(*cobra.Command, []string) {}}
	sub := &cobra.Command{Use: "turn WHAT…", Short: "Turn it",
		Long:    "Turns it.\n.dots and 'quotes' begin no request: a\\b -x \"y\".\n\n  set in\n  as it is",
		Example: "  tool turn left", Run: func(*cobra.Command, []string) {}}
	sub.Flags().StringP("side", "s", "left", "the `side` to turn it to")
	sub.Flags().Bool("fast", false, "do not wait")
	hidden := &cobra.Command{Use: "secret", Hidden: true, Run: func(*cobra.Command, []string) {}}
	root.AddCommand(sub, hidden)
	assert.Equal(t, `.TH "TOOL\-TURN" 1 "" "tool" ""
.SH NAME
tool\-turn \- Turn it
.SH SYNOPSIS
tool turn WHAT\[u2026] [flags]
.SH DESCRIPTION
Turns it.
\&.dots and 'quotes' begin no request: a\eb \-x \(dqy\(dq.
.PP
.RS 2
.nf
set in
as it is
.fi
.RE
.SH OPTIONS
.TP
\-\-fast
do not wait
.TP
\-h, \-\-help
help for turn
.TP
\-s, \-\-side SIDE
the side to turn it to (default: left)
.SH EXAMPLES
.RS 2
.nf
tool turn left
.fi
.RE
.SH EXIT STATUS
0: done. 1: findings stand in the way, or the answer is no. 2: wrong usage, or input that cannot be read. 3: a fault of the program.
.SH SEE ALSO
tool(1)
`, Page(sub))
	assert.NotContains(t, Page(root), "secret")
}
