package disk

import (
	"errors"
	"io/fs"
	"syscall"
)

// Hint says, after a semicolon, what to do where a file can't be written: "" where nothing more is
// known than the error says. instead is what to do where the folder can't be written to.
func Hint(err error, instead string) string {
	switch {
	case inUse(err):
		return "; another program may have it open: close it there, and try again"
	case errors.Is(err, fs.ErrPermission), errors.Is(err, syscall.EROFS):
		return "; " + instead
	}
	return ""
}
