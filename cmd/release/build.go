package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

// make writes a target's program to a file.
func (t target) make(file, work string) error {
	root, err := output(nil, "go", "list", "-m", "-f", "{{.Dir}}")
	if err != nil {
		return err
	}
	env := append(os.Environ(), "GOOS="+t.system, "GOARCH="+t.processor, "CGO_ENABLED=0", "GOFLAGS=")
	flags := "-s -w -buildid= '-X=main.release=" + version() + "'"
	var notices []notice
	if t.host != "" {
		pkg, err := t.engine(work)
		if err != nil {
			return err
		}
		env = append(env, "CGO_ENABLED=1", "CC="+t.host+"-gcc", "CXX="+t.host+"-g++", "PKG_CONFIG_LIBDIR="+pkg)
		flags += " -linkmode=external '-extldflags=-static " + t.extra + "'"
		if notices, err = t.noticesOfC(work); err != nil {
			return err
		}
	}
	of, err := noticesOfGo(env)
	if err != nil {
		return err
	}
	overlay, err := t.overlay(root, work, append(of, notices...))
	if err != nil {
		return err
	}
	// Names are looked up by Go itself: a static glibc can't. What the compiler would write down of
	// a clone depends on what kind of clone it is.
	args := []string{"build", "-trimpath", "-buildvcs=false", "-tags=netgo,osusergo", "-overlay=" + overlay,
		"-ldflags=" + flags, "-o", file, "./cmd/brightset"}
	_, err = output(env, "go", args...)
	return err
}

// overlay has the compiler read the licences in place of the file that says where to find them,
// and nothing in the working copy changes.
func (t target) overlay(root, work string, notices []notice) (file string, err error) {
	text := filepath.Join(work, "licences-"+t.name()+".txt")
	file = filepath.Join(work, "overlay-"+t.name()+".json")
	in := filepath.Join(root, "cmd", "brightset", "licences.txt")
	if _, err := os.Stat(in); err != nil {
		return "", err
	}
	list, err := json.Marshal(map[string]map[string]string{"Replace": {in: text}})
	if err != nil {
		return "", err
	}
	return file, errors.Join(os.WriteFile(text, together(notices), 0o644), os.WriteFile(file, list, 0o644))
}

// output runs a command and gives what it prints.
func output(env []string, name string, args ...string) (string, error) {
	cmd := exec.Command(name, args...)
	cmd.Env = env
	var errs bytes.Buffer
	cmd.Stderr = &errs
	text, err := cmd.Output()
	if err != nil {
		return "", fmt.Errorf("%s %s: %w\n%s", name, args[0], err, errs.String())
	}
	return strings.TrimSpace(string(text)), nil
}
