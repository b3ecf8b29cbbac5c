// Package campaign says how large the tests are to be. It lies among what tests need, since
// packages that must not import each other have it in common.
package campaign

import "os"

// Cases is how many cases a random test tries: the small number by default, twice as
// many where BRIGHTSET_LONG=1 asks for what a change has to pass, and the large number where
// BRIGHTSET_LONG=all asks for a night's worth.
func Cases(short, long int) int {
	switch os.Getenv("BRIGHTSET_LONG") {
	case "all":
		return long
	case "1":
		return min(long, 2*short)
	}
	return short
}

// Long says whether more is asked for than what runs every day.
func Long() bool { return os.Getenv("BRIGHTSET_LONG") != "" }
