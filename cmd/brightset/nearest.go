package main

import "fmt"

// hint says which of the names may have been meant, or what to type to see them.
func hint(word string, names []string, help string) string {
	best, least := "", 1+len(word)/3
	for _, name := range names {
		if d := distance(word, name); d <= least && (best == "" || d < least) {
			best, least = name, d
		}
	}
	if best == "" {
		return "; type: " + help
	}
	return fmt.Sprintf("; did you mean %q?", best)
}

// distance counts the letters to put in, leave out or change to make b of a.
func distance(a, b string) int {
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range len(a) {
		diagonal := row[0]
		row[0] = i + 1
		for j := range len(b) {
			change := diagonal
			if a[i] != b[j] {
				change++
			}
			diagonal = row[j+1]
			row[j+1] = min(change, row[j]+1, row[j+1]+1)
		}
	}
	return row[len(b)]
}
