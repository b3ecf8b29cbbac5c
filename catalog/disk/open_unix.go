//go:build unix

package disk

import (
	"errors"
	"os"
	"syscall"
)

// Open opens a file to be read, if it is a plain one: opening a pipe would wait for
// somebody at its other end, and a device may do anything.
func Open(path string) (*os.File, error) { return OpenAs(path, os.O_RDONLY) }

// OpenAs opens a plain file, or makes one, with the flags of os.OpenFile.
func OpenAs(path string, flags int) (*os.File, error) {
	f, err := os.OpenFile(path, flags|syscall.O_NONBLOCK, 0o666)
	if err != nil {
		return nil, err
	}
	return regular(f)
}

// OpenIn opens a plain file within a folder to be read.
func OpenIn(root *os.Root, name string) (*os.File, error) {
	f, err := root.OpenFile(name, os.O_RDONLY|syscall.O_NONBLOCK, 0)
	if err != nil {
		return nil, err
	}
	return regular(f)
}

// tryLock locks a file, and does not wait.
func tryLock(f *os.File) bool {
	return syscall.Flock(int(f.Fd()), syscall.LOCK_EX|syscall.LOCK_NB) == nil
}

// SyncFolder makes a new file's name as safe as its content.
func SyncFolder(dir string) error {
	d, err := os.Open(dir)
	if err != nil {
		return err
	}
	return errors.Join(d.Sync(), d.Close())
}

// beforeRename leaves a file open, and locked, until it has its name.
func beforeRename(*os.File) {}
