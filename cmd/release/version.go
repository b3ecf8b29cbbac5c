package main

import (
	"fmt"
	"os"
	"strings"
	"time"
)

// version names the sources that are built: the tag of the commit, where it has one, its day and
// the beginning of its hash, and whether they were changed since. The same commit gives the same
// words in every clone and every time zone. "" where the sources are no clone.
func version() string {
	const short = 12 // git's own short hashes grow with what else there is in a clone
	text, err := git("log", "-1", "--format=%H %cd", "--date=format-local:%Y-%m-%d")
	hash, day, ok := strings.Cut(text, " ")
	if err != nil || !ok || len(hash) < short || len(day) != len(time.DateOnly) {
		return ""
	}
	of := fmt.Sprintf("%s, commit %s", day, hash[:short])
	if tag, err := git("describe", "--tags", "--exact-match"); err == nil {
		of = tag + ", " + of
	}
	if changes, err := git("status", "--porcelain", "--untracked-files=no"); err != nil || changes != "" {
		of += " and changes"
	}
	return of
}

func git(args ...string) (string, error) {
	return output(append(os.Environ(), "TZ=UTC", "LC_ALL=C"), "git", args...)
}
