// Package reason says why something cannot be read, for a sentence that names it already.
package reason

import (
	"errors"
	"io/fs"
)

// Of cuts the operation and the path off an error of a file system. Other errors are given
// as they are.
func Of(err error) error {
	var p *fs.PathError
	if errors.As(err, &p) {
		return p.Err
	}
	return err
}
