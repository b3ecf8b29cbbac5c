package sheet

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
)

// mayWrite says why a file can't be written, if so: it is there already and
// isn't to be replaced, or is not one that import has made.
func mayWrite(path string, replace bool) error {
	info, err := os.Lstat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case err != nil:
		return err
	case !info.Mode().IsRegular() || !madeHere(path):
		return fmt.Errorf("%q is there already and import did not make it, so it stays as it is; type: --out OTHER.toml", path)
	case !replace:
		return thereAlready(path)
	}
	return nil
}

func thereAlready(path string) error {
	return fmt.Errorf("%q is there already, nothing was written; add --replace to write it anew", path)
}

// madeHere says whether a file begins as those do that import writes.
func madeHere(path string) bool {
	f, err := os.Open(path)
	if err != nil {
		return false
	}
	defer f.Close()
	head := make([]byte, len(mark))
	_, err = io.ReadFull(f, head)
	return err == nil && bytes.Equal(head, []byte(mark))
}

// writeBeside writes a text, to the disk, under a name of its own in the folder
// of another file.
func writeBeside(path, text string) (name string, err error) {
	f, err := os.CreateTemp(filepath.Dir(path), ".brightset-*.toml")
	if errors.Is(err, fs.ErrNotExist) {
		return "", fmt.Errorf("there is no folder %q; make it first or name another with --out", filepath.Dir(path))
	}
	if err != nil {
		return "", err
	}
	_, err = f.WriteString(text)
	if err = errors.Join(err, f.Chmod(0o644), f.Sync(), f.Close()); err != nil {
		os.Remove(f.Name())
		return "", err
	}
	return f.Name(), nil
}

// moveTo gives a file its name. A file that has come there in the meantime is
// not replaced unless that is wanted.
func moveTo(tmp, path string, replace bool) error {
	if !replace {
		err := os.Link(tmp, path)
		if errors.Is(err, fs.ErrExist) {
			return thereAlready(path)
		}
		if err == nil {
			syncFolder(path)
			return nil
		}
		// A disk without links: look once more, then rename.
	}
	if err := mayWrite(path, replace); err != nil {
		return err
	}
	if err := os.Rename(tmp, path); err != nil {
		return err
	}
	syncFolder(path)
	return nil
}

// syncFolder makes sure that a file's new name outlives a loss of power. Where
// folders can't be synced there is nothing to be done.
func syncFolder(path string) {
	if d, err := os.Open(filepath.Dir(path)); err == nil {
		_ = d.Sync()
		_ = d.Close()
	}
}
