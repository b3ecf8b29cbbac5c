package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
)

// notice is the licence of one thing that is linked in.
type notice struct {
	of   string // what it is, with its version
	text []byte
}

var noticeNames = regexp.MustCompile(`(?i)^(licen[cs]e|copying|notice|patents|copyright)([.-].*)?$`)

// noticesOfGo are those of Go itself and of every module that the program is made of.
func noticesOfGo(env []string) ([]notice, error) {
	const format = "{{with .Module}}{{if not .Main}}{{.Path}} {{.Version}}\t{{.Dir}}{{end}}{{end}}"
	list, err := output(env, "go", "list", "-deps", "-f", format, "./cmd/brightset")
	if err != nil {
		return nil, err
	}
	goRoot, err := output(env, "go", "env", "GOROOT", "GOVERSION")
	if err != nil {
		return nil, err
	}
	root, version, _ := strings.Cut(goRoot, "\n")
	all := append(strings.Split(list, "\n"), "Go's standard library, "+version+"\t"+root)
	slices.Sort(all)
	var found []notice
	for _, module := range slices.Compact(all) {
		of, dir, ok := strings.Cut(module, "\t")
		if !ok {
			continue // of the program's own packages nothing is listed
		}
		text, err := noticesIn(dir)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", of, err)
		}
		found = append(found, notice{of, text})
	}
	return found, nil
}

// noticesIn are the licences that lie in a folder, all of them.
func noticesIn(dir string) ([]byte, error) {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return nil, err
	}
	var text []byte
	for _, e := range entries {
		if e.IsDir() || !noticeNames.MatchString(e.Name()) {
			continue
		}
		one, err := os.ReadFile(filepath.Join(dir, e.Name()))
		if err != nil {
			return nil, err
		}
		text = append(append(text, bytes.TrimSpace(one)...), "\n\n"...)
	}
	if text == nil {
		return nil, fmt.Errorf("no licence in %s", dir)
	}
	return text, nil
}

// noticesOfC are those of CLP and of the C and C++ libraries that are linked in with it.
func (t target) noticesOfC(work string) ([]notice, error) {
	s, err := unpacked(filepath.Join(work, "sources"))
	if err != nil {
		return nil, err
	}
	runtimes, err := filepath.Glob("/usr/share/doc/gcc-*-base/copyright")
	if err != nil || len(runtimes) == 0 {
		return nil, fmt.Errorf("no licence of the compiler's runtime in /usr/share/doc: %w", err)
	}
	files := []struct{ of, file string }{
		{"COIN-OR CoinUtils, " + filepath.Base(s.coinUtils), filepath.Join(s.coinUtils, "CoinUtils", "LICENSE")},
		{"COIN-OR CLP, " + filepath.Base(s.clp), filepath.Join(s.clp, "Clp", "LICENSE")},
		{"GNU C++ and compiler runtime (with the runtime library exception)", runtimes[len(runtimes)-1]},
	}
	if t.system == "windows" {
		files = append(files, struct{ of, file string }{"mingw-w64 runtime", "/usr/share/doc/mingw-w64-common/copyright"})
	} else {
		files = append(files, struct{ of, file string }{"GNU C library", "/usr/share/doc/libc6/copyright"})
	}
	var found []notice
	for _, f := range files {
		text, err := os.ReadFile(f.file)
		if err != nil {
			return nil, err
		}
		found = append(found, notice{f.of, text})
	}
	return found, nil
}

// together is one text of all of them.
func together(notices []notice) []byte {
	var b bytes.Buffer
	b.WriteString("This program has these parts, each under the licence that follows its name:\n")
	for _, n := range notices {
		fmt.Fprintf(&b, "  - %s\n", n.of)
	}
	for _, n := range notices {
		fmt.Fprintf(&b, "\n%s\n%s\n%s\n%s\n", strings.Repeat("=", 78), n.of, strings.Repeat("=", 78), bytes.TrimSpace(n.text))
	}
	return b.Bytes()
}
