package model

import "brightset/catalog"

// AsIsGrade is the grade of a piece as it lies: given by eye, else by its findings;
// false where there is neither.
func AsIsGrade(st *catalog.State, piece int) (catalog.Centi, bool) {
	d, why := asIsDraft(st, piece)
	return d.grade, why == ""
}
