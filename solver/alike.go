package solver

import (
	"cmp"
	"slices"
)

// inOrder are two groups that have columns in common, and the numbers of these, ascending.
// Where both have one of them, that of the second is not the lower: the other way round the
// solution would be as good, and its ties no less, since ranks rise less in groups that come
// later.
type inOrder struct {
	first, second int
	common        []int64
}

// mostAlike is how many columns are looked through for what groups have in common.
const mostAlike = 6000

// findAlike looks, once in a search, for groups that have two columns or more in common. Of
// all groups that have a column, each is compared with the one before it.
func (in *instance) findAlike() {
	if in.without.order || in.alike != nil || len(in.cols) > mostAlike {
		return
	}
	last, seen := map[int64]int{}, map[[2]int]bool{}
	in.alike = []inOrder{}
	for g, span := range in.groups {
		if span[1]-span[0] < 2 {
			continue
		}
		for c := span[0]; c < span[1]; c++ {
			if !in.cols[c].common {
				continue
			}
			before, ok := last[in.cols[c].number]
			last[in.cols[c].number] = g
			if pair := [2]int{before, g}; ok && !seen[pair] {
				seen[pair] = true
				if common := in.common(before, g); len(common) > 1 {
					in.alike = append(in.alike, inOrder{before, g, common})
				}
			}
		}
	}
	slices.SortStableFunc(in.alike, func(a, b inOrder) int {
		return cmp.Or(cmp.Compare(a.first, b.first), cmp.Compare(a.second, b.second))
	})
}

// common is the numbers of the columns that are the same in two groups, ascending: a change
// may have its own cost for one of them, which is a term where ties have taken its place.
func (in *instance) common(a, b int) (out []int64) {
	at := map[int64]*col{}
	for c := in.groups[a][0]; c < in.groups[a][1]; c++ {
		if k := &in.cols[c]; k.common {
			at[k.number] = k
		}
	}
	for c := in.groups[b][0]; c < in.groups[b][1]; c++ {
		k := &in.cols[c]
		if was := at[k.number]; was != nil && k.common && was.cost == k.cost && slices.Equal(was.terms, k.terms) {
			out = append(out, k.number)
		}
	}
	slices.Sort(out)
	return out
}

// propagateOrder drops columns that two groups have in common where all that is left in the
// other is common too, and comes on the wrong side of them.
func (in *instance) propagateOrder(d *domain) {
	for i := range in.alike {
		k := &in.alike[i]
		if low, _, ok := in.commonLeft(d, k.first, k.common); ok {
			in.dropCommon(d, k.second, k.common, -1, low)
		}
	}
	for i := len(in.alike) - 1; i >= 0; i-- {
		k := &in.alike[i]
		if _, high, ok := in.commonLeft(d, k.second, k.common); ok {
			in.dropCommon(d, k.first, k.common, high, Limit)
		}
	}
}

// commonLeft is the range of numbers left in a group; not ok where one of them is not common
// (a column that only one group has has no number that a common column of its group has).
func (in *instance) commonLeft(d *domain, g int, common []int64) (low, high int64, ok bool) {
	low, high = Limit, -1
	for c := in.first(d, g); c < in.groups[g][1]; c = d.alive.next(c+1, in.groups[g][1]) {
		n := in.cols[c].number
		if _, ok := slices.BinarySearch(common, n); !ok {
			return 0, 0, false
		}
		low, high = min(low, n), max(high, n)
	}
	return low, high, true
}

// dropCommon drops what is common and whose number is not above low and below high.
func (in *instance) dropCommon(d *domain, g int, common []int64, above, below int64) {
	for c := in.first(d, g); c < in.groups[g][1]; c = d.alive.next(c+1, in.groups[g][1]) {
		n := in.cols[c].number
		if _, ok := slices.BinarySearch(common, n); ok && n > above && n < below {
			d.alive.drop(c)
		}
	}
}
