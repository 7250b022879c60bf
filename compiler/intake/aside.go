package intake

import (
	"ferrule/compiler/finding"
	"ferrule/compiler/intake/table"
)

// Aside is a sheet that is not used, as it would read, and the finding that says so. What
// cannot be found because of that is counted under the finding.
type Aside struct {
	Table *table.Table
	Cause *finding.Finding
}
