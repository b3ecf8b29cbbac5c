//go:build !unix

package disk

import "os"

// Open opens a file to be read, if it is a plain one.
func Open(path string) (*os.File, error) { return OpenAs(path, os.O_RDONLY) }

// OpenAs opens a plain file, or makes one, with the flags of os.OpenFile.
func OpenAs(path string, flags int) (*os.File, error) {
	if info, err := os.Stat(path); err == nil && !info.Mode().IsRegular() {
		return nil, &NotRegular{path}
	}
	f, err := os.OpenFile(path, flags, 0o666)
	if err != nil {
		return nil, err
	}
	return regular(f)
}

// OpenIn opens a plain file within a folder to be read.
func OpenIn(root *os.Root, name string) (*os.File, error) {
	f, err := root.Open(name)
	if err != nil {
		return nil, err
	}
	return regular(f)
}

// tryLock says yes: files can't be locked here, and what a killed process left stays.
func tryLock(f *os.File) bool { return true }

// SyncFolder does nothing: folders can't be synced here, and trying is an error.
func SyncFolder(dir string) error { return nil }

// beforeRename closes a file: one that is open can't be renamed here.
func beforeRename(f *os.File) { f.Close() }
