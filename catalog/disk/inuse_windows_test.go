package disk

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// TestOpenElsewhere: a file that another program has open for a moment is written when it has
// closed it; one that stays open stays as it was, and what to do is said.
func TestOpenElsewhere(t *testing.T) {
	dir, err := os.MkdirTemp("", "brightset")
	if err != nil {
		t.Fatal(err)
	}
	defer os.RemoveAll(dir) // what old loaders for Windows' programs can't do, and is no fault
	path := filepath.Join(dir, "sheet.html")
	const mark = "made by us"
	if err := New(path, []byte(mark+" before")); err != nil {
		t.Fatal(err)
	}
	open := func() *os.File {
		t.Helper()
		f, err := os.Open(path)
		if err != nil {
			t.Fatal(err)
		}
		return f
	}
	f := open()
	time.AfterFunc(100*time.Millisecond, func() { f.Close() })
	if err := Replace(path, []byte(mark+" after"), mark); err != nil {
		t.Errorf("open for a moment: %v", err)
	}
	f = open()
	err = Replace(path, []byte(mark+" too late"), mark)
	if err == nil || !strings.Contains(err.Error(), "close it there") {
		t.Errorf("open all the time: %v", err)
	}
	f.Close()
	if all, err := os.ReadDir(filepath.Dir(path)); err != nil || len(all) != 1 {
		t.Errorf("left behind: %v, %v", all, err)
	}
	if text, err := os.ReadFile(path); err != nil || string(text) != mark+" after" {
		t.Errorf("%q, %v", text, err)
	}
}
