//go:build unix

package catalog

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"syscall"
	"testing"
	"time"
)

// loadSoon loads a job and fails if that takes so long that it must be waiting
// for something that never comes.
func loadSoon(t *testing.T, path string) (*State, error) {
	t.Helper()
	type answer struct {
		state *State
		err   error
	}
	done := make(chan answer, 1)
	go func() {
		s, err := Load(path, Options{})
		done <- answer{s, err}
	}()
	select {
	case a := <-done:
		return a.state, a.err
	case <-time.After(time.Minute):
		t.Fatalf("%s: still waiting", path)
		return nil, nil
	}
}

// TestSpecialFiles: what is no plain file is refused, whether it stands for the
// job's file, the shop's or an included one.
func TestSpecialFiles(t *testing.T) {
	dir := t.TempDir()
	t.Chdir(dir)
	for name, err := range map[string]error{
		"pipe":    syscall.Mkfifo("pipe", 0o644),
		"folder":  os.Mkdir("folder", 0o755),
		"large":   sparse("large", maxFileSize+1),
		"huge":    sparse("huge", 1<<40),
		"zero":    os.Symlink("/dev/zero", "zero"),
		"circle":  os.Symlink("circle", "circle"),
		"nowhere": os.Symlink("gone", "nowhere"),
		"locked":  os.WriteFile("locked", nil, 0),
	} {
		if err != nil {
			t.Logf("%s can't be made here: %v", name, err)
		}
	}
	for name, want := range map[string]string{
		"pipe":   "this is not a regular file\n    name a file on disk",
		"folder": "this is a folder, not a file\n    name the file in it",
		"large": "the file is larger than 16 MiB\n" +
			"    check that this is the right file; photos belong beside it, not in it",
		"huge": "the file is larger than 16 MiB\n" +
			"    check that this is the right file; photos belong beside it, not in it",
		"zero":    "this is not a regular file\n    name a file on disk",
		"circle":  "can't be read: too many levels of symbolic links",
		"nowhere": "no such file\n    check the name and the folder you are in",
		"locked":  "you are not allowed to read this file\n    change the file's permissions",
	} {
		if _, err := os.Lstat(name); err != nil || name == "locked" && os.Geteuid() == 0 {
			continue // root may read everything
		}
		s, err := loadSoon(t, name)
		if s != nil || err == nil || err.Error() != name+": "+want {
			t.Errorf("job %s: got\n%v\nwant\n%s: %s", name, err, name, want)
		}
		message, hint, _ := strings.Cut(want, "\n")
		for key, line := range map[string]string{
			"shop":    fmt.Sprintf("[job]\ntitle = \"x\"\nshop = %q\n", name),
			"include": fmt.Sprintf("include = [%q]\n[job]\ntitle = \"x\"\n", name),
		} {
			job := filepath.Join(dir, "job.toml")
			if err := os.WriteFile(job, []byte(line), 0o644); err != nil {
				t.Fatal(err)
			}
			s, err := loadSoon(t, "job.toml")
			said := fmt.Sprintf(": %s: %q: %s\n", key, name, message)
			if s != nil || err == nil || !strings.Contains(err.Error()+"\n", said) || !strings.HasSuffix(err.Error(), hint) {
				t.Errorf("%s %s: got\n%v\nwant\n%s%s", key, name, err, said, hint)
			}
		}
	}
}

// sparse makes a file that takes no room on the disk.
func sparse(name string, size int64) error {
	f, err := os.Create(name)
	if err != nil {
		return err
	}
	defer f.Close()
	return f.Truncate(size)
}

// TestTooMuch: files far beyond any bench are refused before anything is made of
// them, with the place where it became too much.
//
// The most that the program took for such files, by /usr/bin/time -v brightset
// check: 70 MB for a million pieces in 9 MB, 60 MB for a million in 60 MB, 90 MB
// for 1.7 million empty tables, 65 MB for long names, 340 MB for a file of 15
// million line ends (which is no mistake). A file at the limit of entries took
// 170 MB, one of 15000 pieces 110 MB.
func TestTooMuch(t *testing.T) {
	const start = "[job]\ntitle = \"x\"\n[slot.a]\n"
	long := strings.Repeat("a", 4_000_000)
	for _, c := range []struct {
		name, want string
		write      func(b *bytes.Buffer)
	}{
		{"a million pieces", "job.toml: the file is larger than 16 MiB\n" +
			"    check that", func(b *bytes.Buffer) {
			for i := range 1_000_000 {
				fmt.Fprintf(b, "[piece.p%d]\nfits = [\"a\"]\nkind = \"original\"\nmetal = \"steel\"\n", i)
			}
		}},
		{"a million pieces in short", "job.toml:100000:1: there is too much in this file\n    1869b = {}\n",
			func(b *bytes.Buffer) {
				b.WriteString("[piece]\n")
				for i := range 1_000_000 {
					fmt.Fprintf(b, "%x = {}\n", i)
				}
			}},
		{"a long list", "job.toml:4:199999: there is too much in this file\n    a file holds at most 100000",
			func(b *bytes.Buffer) {
				b.WriteString("name = [" + strings.Repeat("0,", 7_000_000) + "]\n")
			}},
		{"long names", "there is too much in this file", func(b *bytes.Buffer) {
			b.WriteString("[" + long + "]\n")
			for i := range 90_000 {
				fmt.Fprintf(b, "%x = 0\n", i)
			}
		}},
		{"a long name", `job.toml:4:2: unknown key "` + long[:300],
			func(b *bytes.Buffer) { b.WriteString("[" + long + "]\n") }},
		{"a long text", "job.toml:4:8: name: this text is longer than 10000 characters\n    keep", func(b *bytes.Buffer) {
			b.WriteString("name = \"" + long + "\"\n")
		}},
		{"a long word", `job.toml:5:6: name: this has to be text`, func(b *bytes.Buffer) {
			b.WriteString("[slot.b]\nname=[\"" + long + "\"]\n")
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := bytes.NewBufferString(start)
			c.write(b)
			inFolder(t, map[string]string{"job.toml": b.String()})
			b = nil
			var before, after runtime.MemStats
			runtime.ReadMemStats(&before)
			st, err := loadSoon(t, "job.toml")
			runtime.ReadMemStats(&after)
			if st != nil || err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("state %v, error %.300v", st != nil, err)
				return
			}
			if n := len(err.Error()); n > 2000 {
				t.Errorf("the message has %d characters", n)
			}
			if used := after.TotalAlloc - before.TotalAlloc; used > 256<<20 {
				t.Errorf("%d MiB were allocated to refuse it", used>>20)
			}
		})
	}
}

// TestManyMistakes: thousands of mistakes are all found, and printed in part.
func TestManyMistakes(t *testing.T) {
	var job strings.Builder
	job.WriteString("[job]\ntitle = \"x\"\n")
	for i := range 1500 {
		fmt.Fprintf(&job, "[slot.s%d]\nquantity = 0\n", i)
	}
	list := mistakesIn(t, map[string]string{"job.toml": job.String()})
	if len(list) != 1500 {
		t.Errorf("%d mistakes, want 1500", len(list))
	}
	if text := (&Mistakes{list}).Error(); !strings.HasSuffix(text, "and 1300 more") {
		t.Errorf("the end is %q", text[len(text)-100:])
	}
}
