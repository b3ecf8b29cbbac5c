package main

import (
	"fmt"
	"path/filepath"
	"slices"
	"strings"
)

// target is a system that a file is made for.
type target struct {
	system, processor string // as Go calls them
	host              string // of the C compiler: CLP is linked in; "" for the engine in Go
	extra             string // what its linker is told, so that the same sources give the same bytes
}

// targets are all that files are made for.
func targets() []target {
	const noID = "-Wl,--build-id=none"
	return []target{
		{"windows", "amd64", "x86_64-w64-mingw32", "-Wl,--no-insert-timestamp"},
		{"linux", "amd64", "x86_64-linux-gnu", noID},
		{"linux", "arm64", "aarch64-linux-gnu", noID},
		{"darwin", "amd64", "", ""},
		{"darwin", "arm64", "", ""},
	}
}

// packages are those of Debian that bring what a target's programs are compiled with.
var packages = map[string]string{
	"x86_64-w64-mingw32": "g++-mingw-w64-x86-64-win32",
	"x86_64-linux-gnu":   "g++",
	"aarch64-linux-gnu":  "g++-aarch64-linux-gnu",
}

func (t target) name() string { return t.system + "-" + t.processor }

// file is what people see in their folder of downloads.
func (t target) file() string {
	system := map[string]string{"darwin": "macos"}[t.system]
	if system == "" {
		system = t.system
	}
	name := "brightset-" + system + "-" + t.processor
	if t.system == "windows" {
		name += ".exe"
	}
	return name
}

func names(list []target) (all []string) {
	for _, t := range list {
		all = append(all, t.name())
	}
	return all
}

// missing says which tools the targets need that are not there, and what brings them; look
// finds a program.
func missing(list []target, look func(string) (string, error)) error {
	var lacking []string
	need := func(program, pkg string) {
		if _, err := look(program); err != nil && !slices.Contains(lacking, pkg) {
			lacking = append(lacking, pkg)
		}
	}
	for _, t := range list {
		if t.host == "" {
			continue
		}
		need(t.host+"-g++", packages[t.host])
		need("dpkg-source", "dpkg-dev")
		need("pkg-config", "pkg-config")
		need("make", "make")
		need(filepath.Join(hostNames, "config.sub"), "autotools-dev")
	}
	if len(lacking) == 0 {
		return nil
	}
	return fmt.Errorf("a compiler or a tool is missing; type: apt-get install %s; or, without C: --without-c",
		strings.Join(lacking, " "))
}
