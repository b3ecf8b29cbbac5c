package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// shBlock is a block of commands in the README. One that sets the machine up is
// marked by the comment before it and is not run here.
var shBlock = regexp.MustCompile("(?s)(<!-- sets the machine up -->\n)?```sh\n(.*?)```")

// TestReadmeCommands runs the README's commands in a folder with a copy of
// nothing but testdata, with the program on the path.
func TestReadmeCommands(t *testing.T) {
	if testing.Short() {
		t.Skip("builds the program")
	}
	text, err := os.ReadFile("README.md")
	if err != nil {
		t.Fatal(err)
	}
	top, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	bin := build(t)
	folder := t.TempDir()
	if err := os.CopyFS(filepath.Join(folder, "testdata"), os.DirFS(filepath.Join(top, "testdata"))); err != nil {
		t.Fatal(err)
	}
	ran := 0
	for _, block := range shBlock.FindAllStringSubmatch(string(text), -1) {
		if block[1] != "" {
			continue
		}
		ran++
		cmd := exec.Command("bash", "-euo", "pipefail", "-c", block[2])
		cmd.Dir = folder
		cmd.Env = append(os.Environ(), "PATH="+filepath.Dir(bin)+string(os.PathListSeparator)+os.Getenv("PATH"))
		if out, err := cmd.CombinedOutput(); err != nil {
			t.Errorf("%v in\n%s\n%s", err, block[2], out)
		}
	}
	if ran == 0 {
		t.Error("the README has no commands to run")
	}
}

// The README's set-up and the tests of every change use the same commands.
func TestReadmeAndCIAgree(t *testing.T) {
	readme, err := os.ReadFile("README.md")
	if err != nil {
		t.Fatal(err)
	}
	ci, err := os.ReadFile(".ci/run")
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"coinor-libclp-dev pkg-config g++ coinor-cbc glpk-utils", "go test -race -timeout 30m ./..."} {
		if !strings.Contains(string(readme), want) || !strings.Contains(string(ci), want) {
			t.Errorf("README.md and .ci/run don't both have %q", want)
		}
	}
}
