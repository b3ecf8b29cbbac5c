//go:build unix

package journal

import (
	"os"
	"syscall"
)

// inodeOf is the number of a file on its disk.
func inodeOf(f *os.File) uint64 {
	if info, err := f.Stat(); err == nil {
		if s, ok := info.Sys().(*syscall.Stat_t); ok {
			return uint64(s.Ino)
		}
	}
	return 0
}
