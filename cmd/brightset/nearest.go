package main

import (
	"fmt"

	"brightset/catalog"
)

// hint says which of the names may have been meant, or what to type to see them.
func hint(word string, names []string, help string) string {
	if best := catalog.Closest(word, names); best != "" {
		return fmt.Sprintf("; did you mean %q?", best)
	}
	return "; type: " + help
}
