package catalog

import (
	"slices"
	"strings"
)

// otherWords are words of the trade for what has a name of its own in these
// files (common practice, no published source).
var otherWords = map[string]string{
	"nos":            "old-stock",
	"new old stock":  "old-stock",
	"oem":            "original",
	"used":           "original",
	"aftermarket":    "reproduction",
	"mazak":          "pot metal",
	"zamak":          "pot metal",
	"zinc":           "pot metal",
	"die cast":       "pot metal",
	"white metal":    "pot metal",
	"abs":            "plastic",
	"alloy":          "aluminium",
	"yellow metal":   "brass",
	"cast brass":     "brass",
	"missing stud":   "missing post",
	"stud missing":   "missing post",
	"rust through":   "eaten hole",
	"bad thread":     "stripped thread",
	"worn thread":    "stripped thread",
	"damaged thread": "stripped thread",
	"brassing":       "base showing",
	"warped":         "twist",
	"warp":           "twist",
	"bent":           "bend",
	"pitting":        "pits",
	"ding":           "dent",
	"kink":           "bend",
	"flaking":        "peeling",
	"minor":          "light",
	"mild":           "light",
	"medium":         "moderate",
	"heavy":          "severe",
	"bad":            "severe",
	"rechrome":       "replate",
	"polish":         "clean",
	"polishing":      "clean",
	"client":         "customer",
	"qty":            "quantity",
	"deadline":       "within_days",
	"notes":          "note",
	"condition":      "grade",
	"material":       "metal",
}

// plainOtherWords are the same without capitals, spaces and hyphens.
var plainOtherWords = func() map[string]string {
	all := map[string]string{}
	for other, word := range otherWords {
		all[plainWord(other)] = word
	}
	return all
}()

// unsureWords are words of the trade that mean now one thing, now another: a nudge to one of
// them would be wrong half the time, so both are named.
var unsureWords = map[string][2]string{
	"chipped": {"jagged edge", "missing fill"}, // of the metal; of paint or enamel
	"chip":    {"jagged edge", "missing fill"},
}

// unsure gives the two words of the list that another word may stand for.
func unsure(plain string, words []string) (two [2]string, ok bool) {
	two, ok = unsureWords[plain]
	return two, ok && slices.Contains(words, two[0]) && slices.Contains(words, two[1])
}

// OtherWords are the words of the trade that lead to one of the files', in their order.
func OtherWords(word string) (all []string) {
	for other, w := range otherWords {
		if w == word {
			all = append(all, other)
		}
	}
	for other, two := range unsureWords {
		if slices.Contains(two[:], word) {
			all = append(all, other)
		}
	}
	slices.Sort(all)
	return all
}

// otherWord returns the word of the list that another word of the trade stands
// for, "" if there is none.
func otherWord(plain string, words []string) string {
	for _, word := range []string{plain, strings.TrimSuffix(plain, "s")} {
		if w := plainOtherWords[word]; w != "" && slices.Contains(words, w) {
			return w
		}
	}
	return ""
}
