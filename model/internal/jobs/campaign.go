package jobs

import (
	"os"
)

// Campaign is how many random cases a test looks at: few in everyday runs, many where
// BRIGHTSET_LONG=1 asks for all that there is time for.
func Campaign(short, long int) int {
	if os.Getenv("BRIGHTSET_LONG") == "1" {
		return long
	}
	return short
}
