package solver

import (
	"math"
	"slices"
)

// split cuts a node where the mixture is undecided: a shared switch, else in one part the
// columns of a group that use a common row against those that don't, else one column
// against the rest. Nil if no group has two columns left.
func (t *decomposition) split(d *partNode, mix *mixture) []*partNode {
	if k := t.undecidedShared(d, mix); k >= 0 {
		left, right := d.clone(), d.clone()
		left.sw[k], right.sw[k] = off, on
		left.prices, right.prices = mix.prices, mix.prices
		return []*partNode{left, right}
	}
	n, low := t.undecidedColumns(d, mix)
	if n < 0 {
		if n, low = t.anyColumns(d, mix); n < 0 {
			return nil
		}
	}
	left, right := d.clone(), d.clone()
	left.prices, right.prices = mix.prices, mix.prices
	q := t.parts[n]
	for c := range q.prob.Groups[low.group].Columns {
		if low.has[c] {
			right.ban[n] = append(right.ban[n], Pick{low.group, c})
		} else {
			left.ban[n] = append(left.ban[n], Pick{low.group, c})
		}
	}
	return []*partNode{left, right}
}

// undecidedShared is the shared switch nearest to one half, -1 if all are decided.
func (t *decomposition) undecidedShared(d *partNode, mix *mixture) int {
	best, at := 1e-6, -1
	for k, v := range mix.y {
		if far := math.Min(v, 1-v); d.sw[k] == open && far > best {
			best, at = far, k
		}
	}
	return at
}

// some are the columns of one group of a part that one side of a cut gets.
type some struct {
	group int
	has   map[int]bool
}

// undecidedColumns finds the part and the columns that the mixture divides most evenly.
func (t *decomposition) undecidedColumns(d *partNode, mix *mixture) (int, some) {
	best, part, cut := 1e-6, -1, some{}
	for n, q := range t.parts {
		for g := range q.prob.Groups {
			weight := map[int]float64{}
			for i, k := range t.pool[n] {
				if w := mix.weight[n][i]; w > 1e-9 {
					weight[k.pick[g]] += w
				}
			}
			if len(weight) < 2 {
				continue
			}
			for _, low := range t.cuts(n, g, weight) {
				sum := 0.0
				for c, w := range weight {
					if low.has[c] {
						sum += w
					}
				}
				far := math.Min(sum, 1-sum)
				if low.row {
					far += 1 // what is common first
				}
				if far > best && sum > 1e-6 && sum < 1-1e-6 {
					best, part, cut = far, n, some{g, low.has}
				}
			}
		}
	}
	return part, cut
}

// anyColumns cuts where nothing is undecided and the node is not settled all the same: the
// plans found so far don't go together, or prices are rounded.
func (t *decomposition) anyColumns(d *partNode, mix *mixture) (int, some) {
	best, part, cut := 1.0, -1, some{}
	for n, q := range t.parts {
		whole, heaviest := 0.0, (*partPlan)(nil)
		for i, k := range t.pool[n] {
			if w := mix.weight[n][i]; w > 1e-9 {
				whole += w
				heaviest = k
			}
		}
		for g := range q.prob.Groups {
			first, left := -1, 0
			for c := range q.prob.Groups[g].Columns {
				if !slices.Contains(d.ban[n], Pick{g, c}) {
					left++
					if first < 0 {
						first = c
					}
				}
			}
			if left < 2 || part >= 0 && whole >= best {
				continue
			}
			if heaviest != nil {
				first = heaviest.pick[g]
			}
			best, part, cut = whole, n, some{g, map[int]bool{first: true}}
		}
	}
	return part, cut
}

// cutSide is one side of a possible cut.
type cutSide struct {
	row bool // it is the columns without a term in a common row
	has map[int]bool
}

// cuts lists the cuts of a group that its mixture is divided by.
func (t *decomposition) cuts(n, g int, weight map[int]float64) []cutSide {
	var out []cutSide
	rows := map[int]bool{}
	uses := map[int]map[int]bool{} // per common row, the columns with a term in it
	for _, u := range t.parts[n].users {
		if u.at.Group != g {
			continue
		}
		for _, m := range u.terms {
			if uses[m.Row] == nil {
				uses[m.Row] = map[int]bool{}
			}
			uses[m.Row][u.at.Column] = true
			if weight[u.at.Column] > 0 {
				rows[m.Row] = true
			}
		}
	}
	for r := range t.rows {
		if rows[r] {
			out = append(out, cutSide{true, uses[r]})
		}
	}
	heaviest := -1
	for c := range t.parts[n].prob.Groups[g].Columns {
		if weight[c] > 0 && (heaviest < 0 || weight[c] > weight[heaviest]) {
			heaviest = c
		}
	}
	return append(out, cutSide{false, map[int]bool{heaviest: true}})
}
