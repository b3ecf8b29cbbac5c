//go:build unix

package journal

import (
	"errors"
	"os"
	"syscall"
	"time"
)

// lock waits until this is the only writer, as long as patience lasts. The lock goes with
// the process.
func lock(f *os.File) error {
	for end := time.Now().Add(patience); ; time.Sleep(20 * time.Millisecond) {
		err := syscall.Flock(int(f.Fd()), syscall.LOCK_EX|syscall.LOCK_NB)
		switch {
		case err == nil, !errors.Is(err, syscall.EINTR) && !errors.Is(err, syscall.EWOULDBLOCK):
			return err
		case time.Now().After(end):
			return &Held{f.Name(), holder(f)}
		}
	}
}
