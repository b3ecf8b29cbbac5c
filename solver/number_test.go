package solver

import (
	"math/rand/v2"
	"slices"
	"testing"
)

// TestNumbering: columns of two groups have one number if and only if they are the same but for
// their names, and in their groups but once; no two of a group have.
func TestNumbering(t *testing.T) {
	same := 0
	for seed := range uint64(500) {
		r := rand.New(rand.NewPCG(seed, 94))
		p := alikeRich(r)
		n := p.numbering()
		for g := range p.Groups {
			if list := slices.Sorted(slices.Values(n.number[g])); len(slices.Compact(list)) < len(n.number[g]) {
				t.Fatalf("seed %d: group %d has numbers %v", seed, g, n.number[g])
			}
			for h := range g {
				for c := range p.Groups[g].Columns {
					for k := range p.Groups[h].Columns {
						one := n.common[g][c] && n.common[h][k] && n.number[g][c] == n.number[h][k]
						if one {
							same++
						}
						if one && !p.interchangeable(g, c, h, k) ||
							!one && p.interchangeable(g, c, h, k) && !p.twice(g, c) && !p.twice(h, k) {
							t.Fatalf("seed %d: column %d of group %d and %d of %d have one number: %v", seed, c, g, k, h, one)
						}
					}
				}
			}
		}
	}
	if same < 1000 {
		t.Errorf("only %d columns were in common", same)
	}
}

// twice says whether a group has a column more than once.
func (p *Problem) twice(g, c int) bool {
	for k := range p.Groups[g].Columns {
		if k != c && p.interchangeable(g, c, g, k) {
			return true
		}
	}
	return false
}

// interchangeable says whether what a column asks for, counts as and costs is the same.
func (p *Problem) interchangeable(g, c, h, k int) bool {
	a, b := &p.Groups[g].Columns[c], &p.Groups[h].Columns[k]
	if a.Cost != b.Cost || a.Tie != b.Tie || !slices.Equal(a.Terms, b.Terms) || !slices.Equal(a.Needs, b.Needs) ||
		!slices.Equal(a.Loads, b.Loads) {
		return false
	}
	for _, n := range p.WithinTolerance {
		i, j := slices.Index(n.Groups, g), slices.Index(n.Groups, h)
		if (i >= 0) != (j >= 0) || i >= 0 && n.Values[i][c] != n.Values[j][k] {
			return false
		}
	}
	for _, s := range p.AllEqual {
		i, j := slices.Index(s.Groups, g), slices.Index(s.Groups, h)
		if (i >= 0) != (j >= 0) || i >= 0 && s.Labels[i][c] != s.Labels[j][k] {
			return false
		}
	}
	return true
}
