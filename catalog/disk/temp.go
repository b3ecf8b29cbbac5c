package disk

import (
	"errors"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"time"
)

// prefix begins the names of files that are being written.
const prefix = ".brightset-"

// Temp is a file in the making, beside its place. It is locked as long as it is made: one
// that can be locked was left behind by a process that was killed.
type Temp struct {
	f    *os.File
	Path string
}

// Beside begins a file in the folder of another, with the permissions that the user's
// mask leaves it, and takes away what killed processes left there. Its name ends as told.
func Beside(path, end string) (*Temp, error) {
	dir := filepath.Dir(path)
	sweep(dir)
	for {
		name := filepath.Join(dir, prefix+strconv.FormatUint(rand.Uint64(), 36)+end)
		f, err := os.OpenFile(name, os.O_RDWR|os.O_CREATE|os.O_EXCL, 0o666)
		if errors.Is(err, fs.ErrExist) {
			continue
		}
		if err != nil {
			return nil, err
		}
		if tryLock(f) && same(f, name) {
			return &Temp{f, name}, nil
		}
		f.Close() // another process swept it away before it was locked
		os.Remove(name)
	}
}

// same says whether a name still stands for an open file.
func same(f *os.File, name string) bool {
	here, err := f.Stat()
	there, err2 := os.Lstat(name)
	return err == nil && err2 == nil && os.SameFile(here, there)
}

// sweep removes files in the making that nobody makes any more.
func sweep(dir string) {
	all, err := os.ReadDir(dir)
	if err != nil {
		return
	}
	for _, one := range all {
		if !strings.HasPrefix(one.Name(), prefix) || !one.Type().IsRegular() {
			continue
		}
		name := filepath.Join(dir, one.Name())
		f, err := Open(name)
		if err != nil {
			continue
		}
		if tryLock(f) && same(f, name) {
			os.Remove(name)
		}
		f.Close()
	}
}

// Write writes all of the file, to the disk.
func (t *Temp) Write(text []byte) error {
	_, err := t.f.Write(text)
	return errors.Join(err, t.f.Sync())
}

// Create gives the file its name, which must be free.
func (t *Temp) Create(path string) error {
	err := os.Link(t.Path, path)
	if err != nil && !errors.Is(err, fs.ErrExist) { // a disk without links: look, then rename
		if _, there := os.Lstat(path); !errors.Is(there, fs.ErrNotExist) {
			return fs.ErrExist
		}
		err = t.rename(path)
	}
	if err == nil {
		_ = SyncFolder(filepath.Dir(path))
	}
	return err
}

// Replace gives the file its name, which a file that bears a mark may have now.
func (t *Temp) Replace(path, mark string) error {
	if err := Replaceable(path, mark); err != nil {
		return err
	}
	if info, err := os.Stat(path); err == nil {
		if err := t.f.Chmod(info.Mode().Perm()); err != nil {
			return err
		}
	}
	err := t.rename(path)
	if err == nil {
		_ = SyncFolder(filepath.Dir(path))
	}
	return err
}

func (t *Temp) rename(path string) error {
	beforeRename(t.f)
	wait, most := 10*time.Millisecond, time.Second // whoever looks for viruses has files open for a moment
	for {
		err := os.Rename(t.Path, path)
		if err == nil || !inUse(err) || wait > most {
			return err
		}
		time.Sleep(wait)
		wait *= 2
	}
}

// Discard ends the making: what has no name by now is gone. Its own name was drawn at random, so
// that nobody else's file has it.
func (t *Temp) Discard() {
	t.f.Close() // first: not every system takes away a file that is open
	os.Remove(t.Path)
}
