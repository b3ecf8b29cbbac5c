//go:build unix

package journal

import (
	"errors"
	"os"
	"syscall"
)

// tryLock locks a file, and does not wait. busy: another process has it.
func tryLock(f *os.File) (busy bool, err error) {
	err = syscall.Flock(int(f.Fd()), syscall.LOCK_EX|syscall.LOCK_NB)
	return errors.Is(err, syscall.EINTR) || errors.Is(err, syscall.EWOULDBLOCK), err
}
