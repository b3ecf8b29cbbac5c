package disk

import (
	"errors"
	"syscall"
)

// What the system says of files that others have open.
const (
	errSharing = syscall.Errno(32)
	errLocked  = syscall.Errno(33)
)

// inUse says whether a file could not be had because others have it open: where it was to give
// way to another one, the system says that access is denied.
func inUse(err error) bool {
	return errors.Is(err, errSharing) || errors.Is(err, errLocked) || errors.Is(err, syscall.ERROR_ACCESS_DENIED)
}
