package parallel

import (
	"context"

	"ferrule/sheets/guard"
)

// Until calls f and gives the context's error where that ends first: then f goes on for
// nothing, so it must write nothing that is there afterwards, and nothing that it has set may be
// read. So the work of a whole stage ends with its context, whichever of its loops a workbook has
// made long. A panic of f becomes one of the caller's.
func Until(ctx context.Context, f func()) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	if ctx.Done() == nil { // it never ends
		f()
		return nil
	}
	select {
	case fault := <-guard.Beside(f):
		if fault != nil {
			panic(fault)
		}
		return nil
	case <-ctx.Done():
		return ctx.Err()
	}
}
