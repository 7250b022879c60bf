//go:build !linux && !darwin

package folder

import "errors"

// exchange is no single step on this system.
func exchange(string, string) error { return errors.ErrUnsupported }
