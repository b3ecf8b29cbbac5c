package bench

import (
	"os"
	"path/filepath"
	"regexp"
	"testing"

	"brightset/catalog/event"
	"brightset/cmd/brightset/internal/record"
)

// TestPagesKnowTheActions: every action that a form of the pages sends is one that can be
// recorded.
func TestPagesKnowTheActions(t *testing.T) {
	files, err := filepath.Glob("pages/*.html")
	if err != nil {
		t.Fatal(err)
	}
	named := regexp.MustCompile(`name="action" value="(\w+)"|"A" "(\w+)"`)
	found := 0
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range named.FindAllStringSubmatch(string(text), -1) {
			found++
			if _, ok := record.Find(m[1] + m[2]); !ok && m[1] != string(event.Keep) {
				t.Errorf("%s: nothing is recorded by %q", file, m[1]+m[2])
			}
		}
	}
	if found < 15 {
		t.Errorf("only %d actions found in the pages", found)
	}
}
