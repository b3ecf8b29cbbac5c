package catalog

import (
	"slices"
	"strings"
)

// otherWords are words of the trade for what has a name of its own in these
// files (common practice, no published source). They are
// written without spaces and hyphens here.
var otherWords = map[string]string{
	"nos":         "old-stock",
	"newoldstock": "old-stock",
	"oem":         "original",
	"used":        "original",
	"aftermarket": "reproduction",
	"mazak":       "pot metal",
	"zamak":       "pot metal",
	"zinc":        "pot metal",
	"diecast":     "pot metal",
	"whitemetal":  "pot metal",
	"abs":         "plastic",
	"alloy":       "aluminium",
	"yellowmetal": "brass",
	"castbrass":   "brass",
	"missingstud": "missing post",
	"studmissing": "missing post",
	"rustthrough": "eaten hole",
	"brassing":    "base showing",
	"warped":      "twist",
	"warp":        "twist",
	"chipped":     "jagged edge",
	"bent":        "bend",
	"pitting":     "pits",
	"ding":        "dent",
	"kink":        "bend",
	"flaking":     "peeling",
	"minor":       "light",
	"mild":        "light",
	"medium":      "moderate",
	"heavy":       "severe",
	"bad":         "severe",
	"rechrome":    "replate",
	"polish":      "clean",
	"polishing":   "clean",
	"client":      "customer",
	"qty":         "quantity",
	"deadline":    "within_days",
	"notes":       "note",
	"condition":   "grade",
	"material":    "metal",
}

// otherWord returns the word of the list that another word of the trade stands
// for, "" if there is none.
func otherWord(plain string, words []string) string {
	for _, word := range []string{plain, strings.TrimSuffix(plain, "s")} {
		if w := otherWords[word]; w != "" && slices.Contains(words, w) {
			return w
		}
	}
	return ""
}
