package check

import "ferrule/compiler/model"

// Says gives what a fitment cell says, as it would be written.
func Says(f *model.Fits) string { return f.String() }
