package catalog

import (
	"bufio"
	"errors"
	"fmt"
	"os"
	"runtime"
	"strings"
	"syscall"
	"testing"
	"time"
)

// TestFIFO: a named pipe that nobody writes to must not make the program wait.
func TestFIFO(t *testing.T) {
	t.Chdir(t.TempDir())
	if err := syscall.Mkfifo("job.toml", 0o644); err != nil {
		t.Skip(err)
	}
	done := make(chan error, 1)
	go func() {
		_, err := Load("job.toml", Options{})
		done <- err
	}()
	select {
	case err := <-done:
		if err == nil || !strings.Contains(err.Error(), "not a regular file") {
			t.Errorf("%v", err)
		}
	case <-time.After(20 * time.Second):
		t.Fatal("still waiting for a pipe")
	}
}

// TestMillionPieces: a file far beyond any bench is refused before it is
// decoded. The whole load may allocate 96 MiB, for a file of 63 million bytes, of which it
// reads 16 MiB.
func TestMillionPieces(t *testing.T) {
	t.Chdir(t.TempDir())
	f, err := os.Create("job.toml")
	if err != nil {
		t.Fatal(err)
	}
	w := bufio.NewWriter(f)
	fmt.Fprint(w, "[job]\ntitle = \"Too much\"\n[slot.a]\narea = \"1 dm2\"\n")
	for i := range 1_000_000 {
		fmt.Fprintf(w, "[piece.p%d]\nfits = [\"a\"]\nkind = \"original\"\nmetal = \"steel\"\n", i)
	}
	if err := errors.Join(w.Flush(), f.Close()); err != nil {
		t.Fatal(err)
	}
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	st, err := Load("job.toml", Options{})
	runtime.ReadMemStats(&after)
	if st != nil || err == nil || !strings.Contains(err.Error(), "16 MiB") {
		t.Errorf("state %v, error %v", st != nil, err)
	}
	if used := after.TotalAlloc - before.TotalAlloc; used > 96<<20 {
		t.Errorf("%d MiB were used to refuse it", used>>20)
	}
}
