package record

import "os"

// campaign is how many cases a random test tries: the small number by default, four times as
// many where BRIGHTSET_LONG=1 asks for what a change has to pass, and the large number where
// BRIGHTSET_LONG=all asks for a night's worth.
func campaign(short, long int) int {
	switch os.Getenv("BRIGHTSET_LONG") {
	case "all":
		return long
	case "1":
		return min(long, 4*short)
	}
	return short
}
