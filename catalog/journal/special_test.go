//go:build unix

package journal

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
)

// TestSpecial: a journal that is a pipe, a device, a folder or a link to nowhere is
// refused at once, for reading and for writing, and nothing comes of it.
func TestSpecial(t *testing.T) {
	dir := t.TempDir()
	at := func(name string) string { return filepath.Join(dir, name) }
	if err := errors.Join(syscall.Mkfifo(at("pipe"), 0o644), os.Symlink("/dev/zero", at("zero")),
		os.Mkdir(at("folder"), 0o755), os.Symlink("gone", at("nowhere"))); err != nil {
		t.Fatal(err)
	}
	for name, says := range map[string]string{"pipe": "not a regular file", "zero": "not a regular file", "folder": "",
		"nowhere": "link to a file that is not there"} {
		done := make(chan [2]error, 1)
		go func() {
			_, _, err := Load(at(name))
			w, err2 := Open(at(name))
			if err2 == nil {
				w.Close()
			}
			done <- [2]error{err, err2}
		}()
		select {
		case errs := <-done:
			for _, err := range errs {
				if err == nil || !strings.Contains(err.Error(), says) {
					t.Errorf("%s: %v", name, err)
				}
			}
		case <-time.After(time.Minute):
			t.Fatalf("%s: still waiting", name)
		}
	}
	if _, err := os.Lstat(at("gone")); err == nil {
		t.Error("a file was made behind a link")
	}
}

// TestHeld: a writer that finds the journal held waits a while, and then says by whom.
func TestHeld(t *testing.T) {
	defer func(was time.Duration) { patience = was }(patience)
	patience = 50 * time.Millisecond
	path := filepath.Join(t.TempDir(), "job.journal")
	w, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	_, err = Open(path)
	var held *Held
	if !errors.As(err, &held) || !strings.Contains(err.Error(), "is held by") {
		t.Fatal(err)
	}
	if _, proc := os.Stat("/proc/locks"); proc == nil && !strings.Contains(held.By, "another") &&
		(!strings.Contains(held.By, filepath.Base(os.Args[0])) || !strings.Contains(held.By, "running since")) {
		t.Error(held.By)
	}
	w.Close()
	w, err = Open(path)
	if err != nil {
		t.Fatal("once it is let go:", err)
	}
	w.Close()
}
