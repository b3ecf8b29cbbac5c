//go:build unix

package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

// ownJob is a small job of a folder's own, with something recorded.
func ownJob(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	if code, _, errs := brightset("new", dir); code != exitAnswered {
		t.Fatal(errs)
	}
	os.Remove(filepath.Join(dir, "job.journal"))
	return dir
}

// kept gives the content, kind and permissions of all that is in a folder.
func kept(t *testing.T, dir string) string {
	t.Helper()
	list, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	text := ""
	for _, one := range list {
		info, _ := one.Info()
		content := []byte(nil)
		if info.Mode().IsRegular() {
			content, _ = os.ReadFile(filepath.Join(dir, one.Name()))
		}
		text += fmt.Sprintf("%s %s %q\n", one.Name(), info.Mode(), content)
	}
	return text
}

// TestOutputsLeaveAllElse asks every command that writes a file to write it over what it
// did not write: each refuses, and all is as it was.
func TestOutputsLeaveAllElse(t *testing.T) {
	dir := ownJob(t)
	at := func(name string) string { return filepath.Join(dir, name) }
	for _, err := range []error{
		os.WriteFile(at("mine.html"), []byte("<!doctype html>\n<p>mine</p>\n"), 0o600),
		os.WriteFile(at("mine.mps"), []byte("NAME other\n"), 0o640),
		os.WriteFile(at("empty"), nil, 0o600), os.Symlink("mine.html", at("link")), os.Symlink("gone", at("nowhere")),
		os.Symlink("/dev/null", at("device")),
		syscall.Mkfifo(at("pipe"), 0o644), os.Mkdir(at("folder"), 0o755), os.Link(at("job.toml"), at("other-name")),
		os.WriteFile(at("old.journal"), []byte("kept\n"), 0o644),
	} {
		if err != nil {
			t.Fatal(err)
		}
	}
	csv := filepath.Join(t.TempDir(), "t.csv")
	os.WriteFile(csv, []byte("id,fits,kind,metal\np9,rim,original,brass\n"), 0o600)
	before := kept(t, dir)
	names := []string{"job.toml", "shop.toml", "job.journal", "JOB.Journal", "shop.journal", "job.journal.torn",
		"old.journal", "mine.html", "mine.mps", "empty", "link", "nowhere", "device", "pipe", "folder", "other-name"}
	for _, name := range names {
		for _, args := range [][]string{
			{"report", dir, "--out", at(name)}, {"plan", dir, "--mps", at(name)}, {"export", dir, "--out", at(name)},
			{"import", dir, csv, "--replace", "--out", at(name)}, {"learn", at("shop.toml"), "--out", at(name)},
			{"new", at(name)},
		} {
			if args[0] == "new" && (name == "folder" || strings.Contains(strings.ToLower(name), "journal")) {
				continue // a folder, new or empty
			}
			if code, _, _ := brightset(args...); code == exitAnswered {
				t.Errorf("%v: answered", args)
			}
			if now := kept(t, dir); now != before {
				t.Fatalf("%v changed\n%s\nto\n%s", args, before, now)
			}
		}
	}
}

// TestOrdersLeaveAllElse: not one sheet is written where one of them would go over
// something else.
func TestOrdersLeaveAllElse(t *testing.T) {
	dir := ownJob(t)
	out := filepath.Join(dir, "out")
	if code, _, errs := brightset("orders", dir, "--out", out); code != exitAnswered {
		t.Fatal(errs)
	}
	sheets, _ := filepath.Glob(filepath.Join(out, "*.html"))
	if code, _, errs := brightset("orders", dir, "--out", out); code != exitAnswered {
		t.Fatal("over its own:", errs)
	}
	last := sheets[len(sheets)-1]
	os.WriteFile(last, []byte("mine"), 0o600)
	before := kept(t, out)
	if code, _, errs := brightset("orders", dir, "--out", out); code == exitAnswered ||
		!strings.Contains(errs, "did not write it") || kept(t, out) != before {
		t.Errorf("exit %d, %s", code, errs)
	}
}

// TestOutputsAgain: what the program wrote it writes anew, with the permissions it was
// given since; a new file has those that the user's mask leaves.
func TestOutputsAgain(t *testing.T) {
	defer syscall.Umask(syscall.Umask(0o027))
	dir := ownJob(t)
	for name, args := range map[string][]string{
		"report.html": {"report", dir}, "p.mps": {"plan", dir, "--mps", filepath.Join(dir, "p.mps")},
	} {
		path := filepath.Join(dir, name)
		for i, mode := range []os.FileMode{0o640, 0o600} {
			if code, _, errs := brightset(args...); code != exitAnswered {
				t.Fatalf("%v: %s", args, errs)
			}
			if info, err := os.Stat(path); err != nil || info.Mode().Perm() != mode {
				t.Errorf("%s, time %d: %v, %v", name, i, info.Mode(), err)
			}
			os.Chmod(path, 0o600)
		}
	}
	out := filepath.Join(dir, "t.csv")
	if code, _, errs := brightset("export", dir, "--out", out); code != exitAnswered {
		t.Fatal(errs)
	}
	if info, _ := os.Stat(out); info.Mode().Perm() != 0o640 {
		t.Error(info.Mode())
	}
}

// TestRecordedButUnsaid: where the answer can't be printed it is said that it stands.
func TestRecordedButUnsaid(t *testing.T) {
	dir := t.TempDir()
	if err := os.CopyFS(dir, os.DirFS("testdata/demo")); err != nil {
		t.Fatal(err)
	}
	full, err := os.OpenFile("/dev/full", os.O_WRONLY, 0)
	if err != nil {
		t.Skip("no /dev/full here")
	}
	defer full.Close()
	var errs strings.Builder
	if code := run([]string{"record", "broke", "drawer-grille", dir}, nil, full, &errs); code != exitFailed ||
		!strings.Contains(errs.String(), "it is recorded (entry 1") {
		t.Errorf("exit %d: %s", code, &errs)
	}
	if _, out, _ := brightset("record", "list", dir); !strings.Contains(out, "drawer-grille") {
		t.Error(out)
	}
}
