package solver

import "os"

// campaign is how many random cases a test goes through: a few, or with
// BRIGHTSET_LONG=1 in the environment as many as are worth a night.
func campaign(short, long int) int {
	if os.Getenv("BRIGHTSET_LONG") == "1" {
		return long
	}
	return short
}
