package plan

import "brightset/catalog"

// Used says how many of each piece lines use, as planned or in reserve; a spare that two
// slots share is one for both.
func Used(st *catalog.State, lines []Line) map[int]int {
	used := map[int]int{}
	for i := range lines {
		l := &lines[i]
		n := max(1, st.Slots[l.Slot].Quantity)
		used[l.Choice.Piece] += n
		if l.Fallback != nil {
			used[l.Fallback.Piece] += n
			if s := l.Sharing; s != nil && s.With < l.Slot { // one does for both
				used[l.Fallback.Piece] -= min(n, max(1, st.Slots[s.With].Quantity))
			}
		}
	}
	return used
}

// BundlesOf says how many of each bundle are bought for lines, as planned or in reserve: one,
// or as many boxes as hold what they use.
func BundlesOf(st *catalog.State, lines []Line) map[int]int {
	out := map[int]int{}
	for piece, n := range Used(st, lines) {
		if b := st.Pieces[piece].Bundle; b != catalog.None {
			out[b] = max(out[b], st.Bundles[b].Count(n))
		}
	}
	return out
}
