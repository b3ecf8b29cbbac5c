//go:build unix

package journal

import (
	"os"
	"syscall"
)

// lock waits until this is the only writer. The lock goes with the process.
func lock(f *os.File) error {
	for {
		err := syscall.Flock(int(f.Fd()), syscall.LOCK_EX)
		if err != syscall.EINTR {
			return err
		}
	}
}
