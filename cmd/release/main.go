// Command release makes the files that people download: one program each for Windows, Linux and
// macOS that needs nothing beside it, with the licences of what is linked in, and a list of
// checksums. It runs on Debian, and gives the same bytes for the same commit on the same release
// of Debian and Go.
//
// With a target's cross compiler at hand, CLP is compiled from Debian's own sources and linked
// statically; macOS, for which nobody can compile C here, gets the engine that is written in Go.
package main

import (
	"errors"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
)

func main() {
	if err := run(os.Args[1:]); err != nil {
		fmt.Fprintf(os.Stderr, "release: %s\n", err)
		os.Exit(1)
	}
}

// options are what the command line asks for.
type options struct {
	out  string   // the folder for the files
	work string   // the folder in which CLP is compiled, and kept for the next time
	only []string // the names of targets; nil for all
	goes bool     // with the engine in Go for all of them
}

func run(args []string) error {
	var o options
	flags := flag.NewFlagSet("release", flag.ContinueOnError)
	flags.StringVar(&o.out, "out", "dist", "the `FOLDER` for the files")
	flags.StringVar(&o.work, "work", filepath.Join(os.TempDir(), "brightset-release"),
		"the `FOLDER` in which CLP is compiled, and kept for the next time")
	flags.Func("only", "these `TARGETS` alone, such as windows-amd64,linux-arm64", func(list string) error {
		o.only = append(o.only, strings.Split(list, ",")...)
		return nil
	})
	flags.BoolVar(&o.goes, "without-c", false,
		"the engine in Go for all targets: nothing is fetched, no compiler but Go's")
	if err := flags.Parse(args); err != nil {
		if errors.Is(err, flag.ErrHelp) {
			return nil // what there is has been printed
		}
		return err
	}
	if flags.NArg() > 0 {
		return fmt.Errorf("%q is one argument too many; type: go run ./cmd/release --help", flags.Arg(0))
	}
	chosen, err := o.targets()
	if err != nil {
		return err
	}
	if err := missing(chosen, exec.LookPath); err != nil {
		return err
	}
	return o.build(chosen)
}

// targets are those that are asked for.
func (o *options) targets() ([]target, error) {
	var chosen []target
	for _, t := range targets() {
		if o.goes {
			t.host = ""
		}
		if o.only == nil || slices.Contains(o.only, t.name()) {
			chosen = append(chosen, t)
		}
	}
	for _, name := range o.only {
		if !slices.ContainsFunc(chosen, func(t target) bool { return t.name() == name }) {
			return nil, fmt.Errorf("no target %q; there are: %s", name, strings.Join(names(targets()), ", "))
		}
	}
	return chosen, nil
}

// build makes one file after the other and the list of their checksums.
func (o *options) build(chosen []target) error {
	out, err := filepath.Abs(o.out)
	if err != nil {
		return err
	}
	work, err := filepath.Abs(o.work)
	if err != nil {
		return err
	}
	if err := errors.Join(os.MkdirAll(out, 0o755), os.MkdirAll(work, 0o755)); err != nil {
		return err
	}
	var made []string
	for _, t := range chosen {
		file := filepath.Join(out, t.file())
		if err := t.make(file, work); err != nil {
			return fmt.Errorf("%s: %w", t.name(), err)
		}
		fmt.Println(file)
		made = append(made, file)
	}
	return sums(filepath.Join(out, "SHA256SUMS"), made)
}
