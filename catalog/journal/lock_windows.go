package journal

import (
	"errors"
	"os"
	"syscall"
	"unsafe"
)

var lockFileEx = syscall.NewLazyDLL("kernel32.dll").NewProc("LockFileEx")

const (
	lockAtOnce = 1 // or fail
	lockAlone  = 2

	errLocked = syscall.Errno(33)
)

// tryLock locks a file, and does not wait. busy: another process has it. What is locked
// can't be read by others here, so it is one byte far beyond all that a journal holds.
func tryLock(f *os.File) (busy bool, err error) {
	at := syscall.Overlapped{OffsetHigh: 1 << 30}
	ok, _, err := lockFileEx.Call(f.Fd(), lockAtOnce|lockAlone, 0, 1, 0, uintptr(unsafe.Pointer(&at)))
	if ok != 0 {
		return false, nil
	}
	return errors.Is(err, errLocked), err
}
