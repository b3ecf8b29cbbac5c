// Package campaign says how large the tests are to be. It lies among what tests need, since
// packages that must not import each other have it in common.
package campaign

import "os"

// Cases is how many cases a random test tries: half as many as it names where
// BRIGHTSET_LONG=1 asks for what a change has to pass, a night's worth where
// BRIGHTSET_LONG=all does, and a quarter by default, each rounded up: the same cases, the
// first of them.
func Cases(most, night int) int {
	switch os.Getenv("BRIGHTSET_LONG") {
	case "all":
		return night
	case "1":
		return min((most+1)/2, night)
	}
	return min((most+3)/4, night)
}

// Long says whether more is asked for than what runs every day.
func Long() bool { return os.Getenv("BRIGHTSET_LONG") != "" }
