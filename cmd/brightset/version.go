package main

import (
	_ "embed"
	"fmt"
	"runtime"
	"runtime/debug"

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

// versionText names the version, the compiler, the system and the engine of the linear programs.
func versionText() string {
	text := "brightset"
	if info, ok := debug.ReadBuildInfo(); ok {
		if v := info.Main.Version; v != "" && v != "(devel)" {
			text += " " + v
		} else {
			text += " (built from a working copy)"
		}
	}
	return fmt.Sprintf("%s, %s %s/%s, linear programs by %s\n", text, runtime.Version(), runtime.GOOS, runtime.GOARCH,
		solver.EngineName)
}
