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

// The README has the one line from which the tests of every change take what they need
// and how they are run, and .ci/run names no command of its own for it.
func TestReadmeAndCIAgree(t *testing.T) {
	readme, err := os.ReadFile("README.md")
	if err != nil {
		t.Fatal(err)
	}
	ci, err := os.ReadFile(".ci/run")
	if err != nil {
		t.Fatal(err)
	}
	command := regexp.MustCompile(`(?m)apt-get install -y [a-z0-9 +-]+ && (go test .*)$`)
	line := command.FindAllStringSubmatch(string(readme), -1)
	if len(line) != 1 || line[0][1] != "go test ./..." {
		t.Errorf("README.md says how the tests are run in %d lines: %q", len(line), line)
	}
	for _, own := range []string{"coinor", "go test ./...", "-timeout"} {
		if strings.Contains(string(ci), own) {
			t.Errorf(".ci/run has %q of its own", own)
		}
	}
	if !strings.Contains(string(ci), axePackage) {
		t.Errorf(".ci/run does not fetch %s", axePackage)
	}
}

// readmeScreen is where the README shows the first screen.
var readmeScreen = regexp.MustCompile("(?s)(<!-- brightset plan testdata/demo -->\n```\n)(.*?)(```\n)")

// TestReadmeOpensWithTheScreen: before anything else the README shows what the program prints
// for the demo job, as it prints it; -update writes it anew.
func TestReadmeOpensWithTheScreen(t *testing.T) {
	text, err := os.ReadFile("README.md")
	if err != nil {
		t.Fatal(err)
	}
	_, screen, _ := shared("plan", "testdata/demo")
	at := readmeScreen.FindSubmatchIndex(text)
	if at == nil || strings.Contains(string(text[:at[0]]), "\n## ") {
		t.Fatal("the README doesn't open with the screen")
	}
	if string(text[at[4]:at[5]]) == screen {
		return
	}
	if !*update {
		t.Fatal("the screen in the README is not what is printed; type: go test ./cmd/brightset -run ReadmeOpens -update")
	}
	now := string(text[:at[4]]) + screen + string(text[at[5]:])
	if err := os.WriteFile("README.md", []byte(now), 0o644); err != nil {
		t.Fatal(err)
	}
}
