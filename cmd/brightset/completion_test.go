package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/spf13/pflag"
)

// TestCompletionNamesAll: every script has every command, every flag and every action.
func TestCompletionNamesAll(t *testing.T) {
	for shell := range shells {
		code, script, errs := brightset("completion", shell)
		if code != exitAnswered || errs != "" {
			t.Fatal(shell, code, errs)
		}
		for _, cmd := range commands() {
			flags := pflag.NewFlagSet(cmd.name, pflag.ContinueOnError)
			cmd.setup(flags)
			names := []string{cmd.name}
			flags.VisitAll(func(f *pflag.Flag) { names = append(names, f.Name) })
			for _, name := range names {
				if !strings.Contains(script, name) {
					t.Errorf("%s: %s of %s is not in the script", shell, name, cmd.name)
				}
			}
		}
		if !strings.Contains(script, "approved") {
			t.Errorf("%s: what can be recorded is not in the script", shell)
		}
	}
}

// TestCompletionInBash asks bash itself, where there is one.
func TestCompletionInBash(t *testing.T) {
	bash, err := exec.LookPath("bash")
	if err != nil {
		t.Skip("no bash")
	}
	_, script, _ := brightset("completion", "bash")
	file := filepath.Join(t.TempDir(), "script")
	if err := os.WriteFile(file, []byte(script), 0o644); err != nil {
		t.Fatal(err)
	}
	for typed, want := range map[string]string{"fron": "frontier", "plan --one": "--one-for-two", "record app": "approved",
		"help hu": "hunt", "completion z": "zsh"} {
		words := strings.Fields("brightset " + typed)
		ask := fmt.Sprintf("source %s; COMP_WORDS=(%s); COMP_CWORD=%d; _brightset; echo \"${COMPREPLY[@]}\"", file,
			strings.Join(words, " "), len(words)-1)
		out, err := exec.Command(bash, "-c", ask).CombinedOutput()
		if got := strings.TrimSpace(string(out)); err != nil || got != want {
			t.Errorf("%s: %q, want %q (%v)", typed, got, want, err)
		}
	}
}

// TestInk: colours take nothing from the text and add nothing else, and none reach what is no
// terminal.
func TestInk(t *testing.T) {
	_, text, _ := shared("plan", "testdata/demo")
	plain := strings.NewReplacer(inkAmount, "", inkWarning, "", inkEnd, "")
	inked := ink(text)
	if plain.Replace(inked) != text {
		t.Error("the text is another one")
	}
	if sum := amounts.FindString(text); sum == "" || !strings.Contains(inked, inkAmount+sum+inkEnd) ||
		!strings.Contains(inked, inkWarning+"Look at"+inkEnd) {
		t.Errorf("amounts and warnings don't stand out: %q", inked)
	}
	if strings.Contains(text, "\x1b") {
		t.Error("a colour without a terminal")
	}
}
