package main

import (
	"bytes"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"brightset/testdata/campaign"
)

// TestTargets: asked for by name, with the engine in Go where that is asked for; a name that
// nobody knows is told with those there are.
func TestTargets(t *testing.T) {
	all, err := (&options{}).targets()
	if err != nil || len(all) != 5 || len(slices.Compact(names(all))) != 5 {
		t.Fatal(all, err)
	}
	some, err := (&options{only: []string{"linux-arm64"}, goes: true}).targets()
	if err != nil || len(some) != 1 || some[0].host != "" || some[0].file() != "brightset-linux-arm64" {
		t.Error(some, err)
	}
	if _, err := (&options{only: []string{"linux-arm46"}}).targets(); err == nil ||
		!strings.Contains(err.Error(), "linux-arm64") {
		t.Error(err)
	}
	for _, x := range all {
		if x.host != "" && packages[x.host] == "" {
			t.Errorf("nothing is said to bring the compiler for %s", x.name())
		}
	}
	if f := all[slices.Index(names(all), "darwin-arm64")].file(); f != "brightset-macos-arm64" {
		t.Error(f)
	}
}

// TestMissing: what lacks is told at once, each package by its name and once.
func TestMissing(t *testing.T) {
	all := targets()
	none := func(string) (string, error) { return "", errors.New("none") }
	err := missing(all, none)
	if err == nil || strings.Count(err.Error(), "dpkg-dev") != 1 ||
		!strings.Contains(err.Error(), "g++-aarch64-linux-gnu") || !strings.Contains(err.Error(), "autotools-dev") {
		t.Error(err)
	}
	if err := missing(all, func(string) (string, error) { return "there", nil }); err != nil {
		t.Error(err)
	}
	if err := missing(all[3:], none); err != nil {
		t.Error("macOS needs no C:", err)
	}
}

// TestNameHosts: the scripts that come with sources, wherever they lie, give way to Debian's; nothing
// else is touched.
func TestNameHosts(t *testing.T) {
	sources, from := t.TempDir(), t.TempDir()
	write := func(path, text string) string {
		t.Helper()
		err := errors.Join(os.MkdirAll(filepath.Dir(path), 0o700), os.WriteFile(path, []byte(text), 0o700))
		if err != nil {
			t.Fatal(err)
		}
		return path
	}
	write(filepath.Join(from, "config.sub"), "new")
	write(filepath.Join(from, "config.guess"), "new")
	want := map[string]string{
		write(filepath.Join(sources, "config.sub"), "old"):                "new",
		write(filepath.Join(sources, "Engine", "config.guess"), "old"):    "new",
		write(filepath.Join(sources, "Engine", "config.sub.in"), "old"):   "old",
		write(filepath.Join(sources, "Engine", "src", "Some.cpp"), "old"): "old",
	}
	if err := nameHosts(sources, from); err != nil {
		t.Fatal(err)
	}
	for path, text := range want {
		if got, err := os.ReadFile(path); err != nil || string(got) != text {
			t.Errorf("%s: %q, %v", path, got, err)
		}
	}
	if err := nameHosts(sources, t.TempDir()); err == nil {
		t.Error("what isn't there is put in place")
	}
}

// TestCodename reads what systems say of themselves.
func TestCodename(t *testing.T) {
	for text, want := range map[string]string{"ID=debian\nVERSION_CODENAME=bookworm\n": "bookworm",
		"VERSION_CODENAME=\"trixie\"": "trixie", "ID=other\n": "", "": ""} {
		if got := codename([]byte(text)); got != want {
			t.Errorf("%q: %q", text, got)
		}
	}
}

// TestNotices: of Go and of every module that is linked in there is a licence, and a module
// without one is no release.
func TestNotices(t *testing.T) {
	t.Chdir("../..")
	found, err := noticesOfGo(append(os.Environ(), "CGO_ENABLED=0"))
	if err != nil {
		t.Fatal(err)
	}
	text := string(together(found))
	for _, of := range []string{"Go's standard library", "github.com/BurntSushi/toml v", "github.com/spf13/pflag v",
		"gonum.org/v1/gonum v"} {
		if !strings.Contains(text, "  - "+of) {
			t.Errorf("nothing is said of %s", of)
		}
	}
	if strings.Contains(text, "chromedp") || strings.Contains(text, "lanl/clp") {
		t.Error("licences of what isn't linked in")
	}
	for _, n := range found {
		if !bytes.Contains(bytes.ToLower(n.text), []byte("copyright")) {
			t.Errorf("%s: no licence: %.80q", n.of, n.text)
		}
	}
	if _, err := noticesIn(t.TempDir()); err == nil {
		t.Error("a folder without a licence has one")
	}
}

// TestRelease: twice from the same sources gives the same bytes and the sums of them; what is made
// runs, and says under what licences its parts are.
func TestRelease(t *testing.T) {
	if !campaign.Long() {
		t.Skip("builds twice: at full size only")
	}
	t.Chdir("../..")
	var made [2][]byte
	for i := range made {
		dir := t.TempDir()
		if err := run([]string{"--without-c", "--only", "linux-amd64", "--out", dir, "--work", t.TempDir()}); err != nil {
			t.Fatal(err)
		}
		file := filepath.Join(dir, "brightset-linux-amd64")
		bytes, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		made[i] = bytes
		sums := exec.Command("sha256sum", "--check", "SHA256SUMS")
		sums.Dir = dir
		if text, err := sums.CombinedOutput(); err != nil {
			t.Errorf("%v: %s", err, text)
		}
		text, err := exec.Command(file, "version", "--licences").Output()
		if err != nil || !strings.Contains(string(text), "  - gonum.org/v1/gonum v") {
			t.Errorf("%v: %.200s", err, text)
		}
	}
	if of := version(); of == "" || !bytes.Contains(made[0], []byte(of)) {
		t.Errorf("the file does not say that it is of %q", of)
	}
	if !bytes.Equal(made[0], made[1]) {
		t.Error("two files of the same sources differ")
	}
}
