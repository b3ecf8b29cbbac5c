package sheet

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"brightset/catalog/disk"
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
		return fmt.Errorf("%q is there already and import did not make it, so it stays as it is; type: --out OTHER.toml",
			path)
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
	f, err := disk.Open(path)
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
func writeBeside(path, text string) (*disk.Temp, error) {
	t, err := disk.Beside(path, ".toml")
	if errors.Is(err, fs.ErrNotExist) {
		return nil, fmt.Errorf("there is no folder %q; make it first or name another with --out", filepath.Dir(path))
	}
	if err != nil {
		return nil, err
	}
	if err := t.Write([]byte(text)); err != nil {
		t.Discard()
		return nil, fmt.Errorf("can't write %q: %w", path, err)
	}
	return t, nil
}

// moveTo gives a file its name. A file that has come there in the meantime is
// not replaced unless that is wanted.
func moveTo(t *disk.Temp, path string, replace bool) error {
	err := t.Create(path)
	switch {
	case !errors.Is(err, fs.ErrExist):
		return err
	case !replace:
		return thereAlready(path)
	}
	if err := mayWrite(path, replace); err != nil {
		return err
	}
	return t.Replace(path, mark)
}
