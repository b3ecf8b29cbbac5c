package catalog

import (
	"errors"
	"fmt"
	"runtime"
	"strings"
	"testing"
)

// included is a job that includes so many files, each with the same text.
func loadIncluding(files int, text string) []Mistake {
	l := newLoader(Options{NothingRecorded: true})
	l.read = func(path string) (string, *Mistake) {
		if path != "job.toml" {
			return text, nil
		}
		var names []string
		for i := range files {
			names = append(names, fmt.Sprintf("%q", fmt.Sprintf("more-%d.toml", i)))
		}
		return "include = [" + strings.Join(names, ", ") + "]\n[job]\ntitle = \"x\"\n[slot.a]\n", nil
	}
	_, err := l.load("job.toml")
	var m *Mistakes
	if !errors.As(err, &m) {
		return nil
	}
	return m.List
}

// All files of a job together have a limit, said once, where the file is named or in the
// file itself; what stands in files that are not read is not missed.
func TestFilesTogether(t *testing.T) {
	var keys strings.Builder
	for i := range 45_000 {
		fmt.Fprintf(&keys, "[spent.s%d]\n", i)
	}
	comment := strings.Repeat(strings.Repeat("#", 1023)+"\n", 16<<10)
	for _, c := range []struct {
		name, text, want string
		enough           int
	}{
		{"bytes", comment, "with it the files of this job are larger than 80 MiB together", 5},
		{"keys", keys.String(), "with it there is too much in the files of this job", 9},
	} {
		var told []string
		for _, m := range loadIncluding(c.enough+3, c.text) {
			if strings.Contains(m.Message, "of this job") || strings.Contains(m.Message, "too much") {
				told = append(told, m.Message)
			}
		}
		if len(told) != 1 || !strings.HasSuffix(told[0], c.want) {
			t.Errorf("%s: %q", c.name, told)
		}
	}
	if list := loadIncluding(4, comment); len(list) > 0 {
		t.Errorf("64 MiB are refused: %v", list)
	}
}

// What a file's lines take goes by what stands on them.
func TestEmptyLinesTakeNoMemory(t *testing.T) {
	text := "[job]\ntitle = \"x\"\n[slot.a]\n" + strings.Repeat("\n", 1<<20)
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	_, err := loadFrom(map[string][]byte{"job.toml": []byte(text)})
	runtime.ReadMemStats(&after)
	if n := after.TotalAlloc - before.TotalAlloc; err != nil || n > 12<<20 {
		t.Errorf("%d bytes for a file of %d; %v", n, len(text), err)
	}
}
