package main

import (
	_ "embed"
	"fmt"
	"runtime"
	"runtime/debug"
	"time"

	"brightset/solver"

	"github.com/spf13/pflag"
)

// licences are those of what is linked in. cmd/release has the compiler read the texts of all of
// them in place of this file, which says where they are to be found.
//
//go:embed licences.txt
var licences string

var versionCommand = command{
	name:    "version",
	summary: "show which version this is, and the licences of what is in it",
	setup: func(flags *pflag.FlagSet) action {
		all := flags.Bool("licences", false, "show the licences of what the program is made of")
		return func(c *call) (int, error) {
			if *all {
				return exitAnswered, c.print(licences)
			}
			return exitAnswered, c.print(versionText())
		}
	},
}

// release is the version of a file that was made to be handed out, by cmd/release: its tag, where
// there is one, the day of its commit and the commit.
var release string

// versionText names the version, the compiler, the system and the engine of the linear programs.
func versionText() string {
	of := release
	if info, ok := debug.ReadBuildInfo(); ok && of == "" {
		of = builtFrom(info)
	}
	return fmt.Sprintf("brightset %s, %s %s/%s, linear programs by %s\n", of, runtime.Version(), runtime.GOOS,
		runtime.GOARCH, solver.EngineName)
}

// builtFrom says what the compiler knows of the sources: the version that was asked for, else the
// day and the commit of the working copy, and whether it was changed since.
func builtFrom(info *debug.BuildInfo) string {
	known := map[string]string{}
	for _, s := range info.Settings {
		known[s.Key] = s.Value
	}
	day, commit := known["vcs.time"], known["vcs.revision"]
	switch {
	case len(day) >= len(time.DateOnly) && len(commit) >= 12:
		text := fmt.Sprintf("%s, commit %s", day[:len(time.DateOnly)], commit[:12])
		if known["vcs.modified"] == "true" {
			text += " and changes"
		}
		return text
	case info.Main.Version != "" && info.Main.Version != "(devel)":
		return info.Main.Version
	}
	return "(built from a working copy)"
}
