// Package campaign says how large the tests are to be. It lies among what tests need, since
// packages that must not import each other have it in common.
package campaign

import "os"

// Cases is how many cases a random test tries: as many as a change has to pass where
// BRIGHTSET_LONG=1 asks for them, a night's worth where BRIGHTSET_LONG=all does, and a
// quarter of the first by default, rounded up: the same cases, the first of them.
func Cases(change, night int) int {
	switch os.Getenv("BRIGHTSET_LONG") {
	case "all":
		return night
	case "1":
		return min(change, night)
	}
	return min((change+3)/4, night)
}

// Long says whether more is asked for than what runs every day.
func Long() bool { return os.Getenv("BRIGHTSET_LONG") != "" }
