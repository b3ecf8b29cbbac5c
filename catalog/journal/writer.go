package journal

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"brightset/catalog/disk"
)

// Limits of a journal: far more than a shop's lifetime, and little enough to be read in
// the memory of a small machine whatever stands in it.
const (
	maxSize     = 64 << 20 // bytes
	maxLine     = 4 << 20  // bytes of one entry
	maxValues   = 4_000_000
	maxProblems = 200 // then the rest is not looked at
)

// TornSuffix is added to the name of a journal for the file that keeps lines a crash
// left unfinished.
const TornSuffix = ".torn"

// Load reads a journal; one that does not exist is empty. data is its bytes.
func Load(path string) (l *Log, data []byte, err error) {
	if data, err = Bytes(path); err != nil {
		return nil, nil, err
	}
	if data == nil {
		return &Log{}, nil, nil
	}
	return Read(data), data, nil
}

// Bytes is what stands in a journal, not taken apart; nil where it does not exist.
func Bytes(path string) ([]byte, error) {
	if err := leadsNowhere(path); err != nil {
		return nil, err
	}
	f, err := disk.Open(path)
	if errors.Is(err, os.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return readAll(f)
}

// leadsNowhere refuses a link to a file that is not there: the journal it meant is not
// empty but lost, on a disk that is not there at the moment.
func leadsNowhere(path string) error {
	_, err := os.Lstat(path)
	if _, there := os.Stat(path); err == nil && errors.Is(there, os.ErrNotExist) {
		return fmt.Errorf("%s is a link to a file that is not there; bring that file back, or take the link away", path)
	}
	return nil
}

func readAll(f *os.File) ([]byte, error) {
	data, err := io.ReadAll(io.LimitReader(f, maxSize+1))
	if err == nil && len(data) > maxSize {
		err = fmt.Errorf("%s is larger than %d MiB", f.Name(), maxSize>>20)
	}
	return data, err
}

// Writer adds entries to one journal. While it is open no other writer has it.
type Writer struct {
	f    *os.File
	path string
	log  *Log
	data []byte
	made bool // the file is new, and so is its name in the folder
}

// Open locks a journal for writing, waiting a while for another writer to finish, and
// reads it. Where he does not, the error is a *Held.
// A line that a crash left unfinished is moved to the file beside it, so that nothing
// is ever added to half a line.
func Open(path string) (*Writer, error) {
	if err := leadsNowhere(path); err != nil {
		return nil, err
	}
	_, err := os.Stat(path)
	w := &Writer{path: path, made: errors.Is(err, os.ErrNotExist)}
	if w.f, err = disk.OpenAs(path, os.O_RDWR|os.O_CREATE|os.O_APPEND); err != nil {
		return nil, err
	}
	if err = lock(w.f); err == nil {
		err = w.read()
	}
	if err != nil {
		w.f.Close()
		return nil, err
	}
	return w, nil
}

func (w *Writer) read() (err error) {
	if w.data, err = readAll(w.f); err != nil {
		return err
	}
	w.log = Read(w.data)
	if w.log.Torn == nil {
		return nil
	}
	if err := setAside(w.path+TornSuffix, w.log.Torn); err != nil {
		return err
	}
	if err := w.f.Truncate(w.log.size); err != nil {
		return err
	}
	w.data = w.data[:w.log.size]
	return w.f.Sync()
}

// setAside keeps what is taken out of a journal.
func setAside(path string, torn []byte) error {
	f, err := disk.OpenAs(path, os.O_WRONLY|os.O_CREATE|os.O_APPEND)
	if err != nil {
		return err
	}
	_, err = f.Write(append(append([]byte(nil), torn...), '\n'))
	return errors.Join(err, f.Sync(), f.Close())
}

// Log is the journal as it stands, with what was added here.
func (w *Writer) Log() *Log { return w.log }

// Append adds one entry and returns it, numbered, once it is safely on disk. If that
// fails the file is as it was.
func (w *Writer) Append(e Entry) (Entry, error) {
	if len(w.log.Problems) > 0 {
		p := w.log.Problems[0]
		return e, fmt.Errorf("%s:%d: %s; nothing is added to it before that is put right", w.path, p.Line, p.Message)
	}
	e.Version, e.Seq = Version, w.log.last()+1
	if e.Changes == nil {
		e.Changes = []Change{}
	}
	line, err := e.line()
	if err != nil {
		return e, err
	}
	if w.log.size+int64(len(line)) > maxSize || len(line) > maxLine {
		return e, fmt.Errorf("%s is full: a journal holds at most %d MiB, an entry %d; nothing was recorded", w.path,
			maxSize>>20, maxLine>>20)
	}
	if _, err = w.f.Write(line); err == nil {
		err = w.f.Sync()
	}
	if err == nil && w.made {
		err = disk.SyncFolder(filepath.Dir(w.path))
	}
	if err != nil {
		return e, errors.Join(err, w.f.Truncate(w.log.size))
	}
	w.made = false
	w.log.size += int64(len(line))
	w.log.Entries = append(w.log.Entries, e)
	return e, nil
}

// Close lets other writers in.
func (w *Writer) Close() error { return w.f.Close() }
