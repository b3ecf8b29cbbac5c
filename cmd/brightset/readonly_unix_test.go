//go:build unix

package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

// TestReadOnlyFolder: in a folder that can't be written to everything is answered; what would have
// to be written is refused, with what to do instead, and nothing changes.
func TestReadOnlyFolder(t *testing.T) {
	program, dir := build(t), demoCopy(t)
	for _, folder := range []string{filepath.Dir(program), filepath.Dir(dir)} {
		if err := os.Chmod(folder, 0o755); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.Chmod(dir, 0o555); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { os.Chmod(dir, 0o755) })
	before, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		args []string
		want string // "" where it is answered
	}{
		{[]string{"plan", dir}, ""}, {[]string{"check", dir}, ""}, {[]string{"record", "list", dir}, ""},
		{[]string{"record", "sent", "crest-2", dir, "--to", "pell"}, "nothing was recorded; what is recorded lies beside " +
			"the job's file: copy the job's folder to one of your own, and go on there"},
		{[]string{"plan", dir, "--keep"}, "copy the job's folder to one of your own"},
		{[]string{"orders", dir, "--out", filepath.Join(dir, "papers")}, "name a place in a folder of your own"},
		{[]string{"report", dir, "--out", filepath.Join(dir, "report.html")}, "name a place in a folder of your own"},
		{[]string{"new", filepath.Join(dir, "more")}, "name a place in a folder of your own"},
	} {
		cmd := exec.Command(program, c.args...)
		cmd.Env = []string{"HOME=/nowhere"}
		if os.Getuid() == 0 { // who may write anywhere
			const nobody = 65534
			cmd.SysProcAttr = &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: nobody, Gid: nobody}}
		}
		text, err := cmd.CombinedOutput()
		if (err == nil) != (c.want == "") || !strings.Contains(string(text), c.want) {
			t.Errorf("%v: %v, %s", c.args, err, text)
		}
	}
	if after, err := os.ReadDir(dir); err != nil || len(after) != len(before) {
		t.Errorf("%d files, were %d (%v)", len(after), len(before), err)
	}
}
