package main

import (
	"runtime/debug"
	"strings"
	"testing"
)

// TestVersion: a program says of which sources it is: what its maker wrote into it, else what the
// compiler knew of the working copy.
func TestVersion(t *testing.T) {
	of := func(version string, settings ...string) *debug.BuildInfo {
		info := debug.BuildInfo{Main: debug.Module{Version: version}}
		for i := 0; i < len(settings); i += 2 {
			info.Settings = append(info.Settings, debug.BuildSetting{Key: settings[i], Value: settings[i+1]})
		}
		return &info
	}
	const hash = "0123456789abcdef0123456789abcdef01234567"
	for want, info := range map[string]*debug.BuildInfo{
		"(built from a working copy)": of("(devel)"),
		"v1.2.0":                      of("v1.2.0"),
		"2031-02-01, commit 0123456789ab": of("v0.0.0-x", "vcs.time", "2031-02-01T09:00:00Z", "vcs.revision", hash,
			"vcs.modified", "false"),
		"2031-02-01, commit 0123456789ab and changes": of("v0.0.0-x+dirty", "vcs.time", "2031-02-01T09:00:00Z",
			"vcs.revision", hash, "vcs.modified", "true"),
	} {
		if got := builtFrom(info); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
	defer func(was string) { release = was }(release)
	release = "v1.2.0, 2031-02-01, commit 0123456789ab"
	if _, text, _ := brightset("version"); !strings.HasPrefix(text, "brightset "+release+", go") {
		t.Errorf("%q", text)
	}
}
