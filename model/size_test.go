package model

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"
)

// TestFilesFitAScreen: no Go file of the module has more than 250 lines, and no line more
// than 120 characters: whoever reads two of them side by side sees all of both.
func TestFilesFitAScreen(t *testing.T) {
	const mostLines, mostCharacters = 250, 120
	for file := range moduleImports(t) {
		text, err := os.ReadFile(filepath.Join("..", file))
		if err != nil {
			t.Fatal(err)
		}
		lines := strings.Split(strings.TrimSuffix(string(text), "\n"), "\n")
		if len(lines) > mostLines {
			t.Errorf("%s has %d lines; cut it by idea", file, len(lines))
		}
		for i, line := range lines {
			if n := utf8.RuneCountInString(line); n > mostCharacters {
				t.Errorf("%s:%d has %d characters; break it at an argument or a sentence, or name a value", file, i+1, n)
			}
		}
	}
}
