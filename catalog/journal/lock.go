package journal

import (
	"os"
	"time"
)

// lock waits until this is the only writer, as long as patience lasts. The lock goes with
// the process.
func lock(f *os.File) error {
	for end := time.Now().Add(patience); ; time.Sleep(20 * time.Millisecond) {
		busy, err := tryLock(f)
		switch {
		case !busy:
			return err
		case time.Now().After(end):
			return &Held{f.Name(), holder(f)}
		}
	}
}
