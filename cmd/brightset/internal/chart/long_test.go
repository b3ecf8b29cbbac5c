package chart

import "os"

// campaign is how many cases a random test tries: the small number by default, the
// large one where the environment variable BRIGHTSET_LONG is 1.
func campaign(short, long int) int {
	if os.Getenv("BRIGHTSET_LONG") == "1" {
		return long
	}
	return short
}
