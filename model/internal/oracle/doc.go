// Package oracle finds the cheapest plan of a small job by trying every one. Tests
// measure the program against it, so it shares nothing with the program: it reads the
// compiled state and the words of the design by itself,
//
//	state -> Choices -> Lines -> Search -> Found
//	          works      rules    sets of lines, charges, trades
//
// with arithmetic of its own. Of catalog it uses the plain data alone and calls none of
// its functions, and of model it can't see anything: a fault of the formulation, of the
// auditor or of the rounding they have in common has nowhere to hide.
//
// Where the words are silent, a comment says what is taken for granted.
package oracle

import "brightset/catalog"

// Reader reads one compiled state.
type Reader struct {
	st     *catalog.State
	losses map[int64]int64 // completion row by chance of a rescue, in 1e-12
}

// Read reads a state.
func Read(st *catalog.State) *Reader { return &Reader{st: st, losses: map[int64]int64{}} }

const nothing = -1

// or is a value, or another where it was not given.
func or[T any](v catalog.Val[T], other T) T {
	if v.Set {
		return v.V
	}
	return other
}

func within(list []int, v int) bool {
	for _, x := range list {
		if x == v {
			return true
		}
	}
	return false
}

// forMetal is the value for one metal, not set where there is none.
func forMetal[T any](list []catalog.Val[T], metal int) (v catalog.Val[T]) {
	if metal >= 0 && metal < len(list) {
		v = list[metal]
	}
	return v
}
