package solver

import "encoding/binary"

// numbering is of the columns of each group. By its number a column's rank goes: no two
// columns of a group have the same, and it rises from column to column, but for this: where
// groups have columns that are the same in all but name, these have one number, so that
// groups may take them from each other without their order changing. common: it is such a
// column, and all that are common and have that number are the same.
type numbering struct {
	number [][]int64
	common [][]bool
}

func (p *Problem) numbering() numbering {
	kinds, groups := p.kinds()
	number, next := make([]int64, len(groups)), int64(0)
	for k, n := range groups {
		if number[k] = -1; n > 1 {
			number[k] = next
			next++
		}
	}
	out := numbering{make([][]int64, len(kinds)), make([][]bool, len(kinds))}
	takenBy := make([]int, next)
	for g, list := range kinds {
		for _, k := range list {
			if number[k] >= 0 {
				takenBy[number[k]] = g + 1
			}
		}
		free := int64(0)
		for _, k := range list {
			n := number[k]
			if n < 0 {
				for free < next && takenBy[free] == g+1 {
					free++
				}
				n = free
			}
			out.number[g], out.common[g] = append(out.number[g], n), append(out.common[g], number[k] >= 0)
			free = max(free, n+1)
		}
	}
	return out
}

// kinds tells columns apart by all they have but their names: per group and column its kind,
// counted from 0 in the order they are met, and per kind how many groups have it. Where a
// group has the same column twice, the second is of another kind.
func (p *Problem) kinds() (kinds [][]int, groups []int) {
	at, last, rules := map[string]int{}, []int(nil), p.rulesOf()
	var key []byte
	kinds = make([][]int, len(p.Groups))
	for g := range p.Groups {
		kinds[g] = make([]int, len(p.Groups[g].Columns))
		for c := range p.Groups[g].Columns {
			key = p.Groups[g].Columns[c].appendTo(binary.AppendUvarint(key[:0], uint64(len(rules[g]))))
			for _, r := range rules[g] {
				key = binary.AppendVarint(binary.AppendVarint(key, int64(r.rule)), r.value(c))
			}
			k, ok := at[string(key)]
			for ; ok && last[k] == g; k, ok = at[string(key)] {
				key = append(key, 0)
			}
			if !ok {
				k = len(last)
				at[string(key)] = k
				groups, last = append(groups, 0), append(last, -1)
			}
			groups[k]++
			kinds[g][c], last[k] = k, g
		}
	}
	return kinds, groups
}

// appendTo adds to key all of a column but its name; what is added for one column is never
// the beginning of what is added for another.
func (k *Column) appendTo(key []byte) []byte {
	for _, v := range [...]int64{k.Cost, k.Tie[0], k.Tie[1]} {
		key = binary.AppendVarint(key, v)
	}
	for _, n := range [...]int{len(k.Terms), len(k.Needs), len(k.Loads)} {
		key = binary.AppendVarint(key, int64(n))
	}
	for _, t := range k.Terms {
		key = binary.AppendVarint(binary.AppendVarint(key, int64(t.Row)), t.Coef)
	}
	for _, h := range k.Needs {
		key = binary.AppendVarint(key, int64(h))
	}
	for _, l := range k.Loads {
		key = binary.AppendVarint(binary.AppendVarint(key, int64(l.Switch)), l.Amount)
	}
	return key
}

// ruleOf is a near or same rule that a group is in, and the value or label of its columns.
type ruleOf struct {
	rule  int
	value func(c int) int64
}

func (p *Problem) rulesOf() [][]ruleOf {
	out := make([][]ruleOf, len(p.Groups))
	for i := range p.WithinTolerance {
		n := &p.WithinTolerance[i]
		for a, g := range n.Groups {
			out[g] = append(out[g], ruleOf{i, func(c int) int64 { return n.Values[a][c] }})
		}
	}
	for i := range p.AllEqual {
		s := &p.AllEqual[i]
		for a, g := range s.Groups {
			out[g] = append(out[g], ruleOf{len(p.WithinTolerance) + i, func(c int) int64 { return int64(s.Labels[a][c]) }})
		}
	}
	return out
}
