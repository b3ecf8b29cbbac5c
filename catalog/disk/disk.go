// Package disk reads plain files only, and writes the files that people ask for: whole or
// not at all, and never over anything but what the program wrote itself.
package disk

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// New writes a file that must not be there yet. The error is fs.ErrExist where it is.
func New(path string, text []byte) error {
	return write(path, all(text), func(t *Temp) error { return t.Create(path) })
}

// Folder makes a folder, and those it lies in, unless it is there.
func Folder(path string) error {
	if err := os.MkdirAll(path, 0o777); err != nil {
		return failed(path, err)
	}
	return nil
}

// all writes a text that is at hand.
func all(text []byte) func(io.Writer) error {
	return func(w io.Writer) error {
		_, err := w.Write(text)
		return err
	}
}

// Replace writes a file that is new, or that holds a mark within its first bytes by which
// it can be told that the program wrote it. Such a file keeps its permissions.
func Replace(path string, text []byte, mark string) error {
	return ReplaceBy(path, mark, all(text))
}

// ReplaceBy does as Replace, with a text that is made while it is written.
func ReplaceBy(path, mark string, text func(io.Writer) error) error {
	if err := Replaceable(path, mark); err != nil {
		return err
	}
	return write(path, text, func(t *Temp) error {
		err := t.Create(path)
		if !errors.Is(err, fs.ErrExist) {
			return err
		}
		return t.Replace(path, mark)
	})
}

// write puts a text beside its place and then there, at once.
func write(path string, text func(io.Writer) error, put func(*Temp) error) error {
	t, err := Beside(path, "")
	if err != nil {
		return failed(path, err)
	}
	defer t.Discard()
	if err = errors.Join(text(t.f), t.f.Sync()); err == nil {
		err = put(t)
	}
	var no *Refused
	if errors.As(err, &no) || err == nil {
		return err
	}
	return failed(path, err)
}

func failed(path string, err error) error {
	return fmt.Errorf("can't write %q: %w%s", path, plain(err), Hint(err, "name a place in a folder of your own"))
}

// plain leaves out the names of temporary files, which tell a reader nothing.
func plain(err error) error {
	var p *fs.PathError
	if errors.As(err, &p) {
		return p.Err
	}
	var l *os.LinkError
	if errors.As(err, &l) {
		return l.Err
	}
	return err
}

// Refused says that something stands at a path that is not to be written over.
type Refused struct{ Path, Why string }

func (r *Refused) Error() string {
	return fmt.Sprintf("%q %s, so nothing is written there; name another file", r.Path, r.Why)
}

// ours are the ends of names under which the program looks for what it reads.
var ours = []string{".toml", ".journal", ".torn"}

// Answer makes sure that a path is no name of an input or of a journal, present or to
// come: a report in place of a journal would be taken for one.
func Answer(path string) error {
	for _, end := range ours {
		if strings.EqualFold(filepath.Ext(path), end) {
			return &Refused{path, fmt.Sprintf("has the name of an input (%s)", end)}
		}
	}
	return nil
}

// Replaceable says why a file can't be written over, if so: it is not a plain file, or
// bears no mark.
func Replaceable(path, mark string) error {
	info, err := os.Lstat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case err != nil:
		return failed(path, err)
	case info.Mode()&fs.ModeSymlink != 0:
		return &Refused{path, "is a link"}
	case info.IsDir():
		return &Refused{path, "is a folder"}
	case !info.Mode().IsRegular():
		return &Refused{path, "is no plain file"}
	case !bears(path, mark):
		return &Refused{path, "is there already and brightset did not write it"}
	}
	return nil
}

// headSize is how far into a file its mark is looked for, in bytes.
const headSize = 1024

// bears says whether a file has a mark near its beginning.
func bears(path, mark string) bool {
	f, err := Open(path)
	if err != nil {
		return false
	}
	defer f.Close()
	head, err := io.ReadAll(io.LimitReader(f, headSize))
	return err == nil && mark != "" && bytes.Contains(head, []byte(mark))
}
