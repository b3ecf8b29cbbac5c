package solver

import (
	"math/rand/v2"
	"testing"

	"brightset/testdata/campaign"
)

// twoPlaces is a piece that may go into either of two groups, and comes with a switch that
// charges 1000; something else for either group costs 900.
func twoPlaces() *Problem {
	p := &Problem{
		Switches: []Switch{{Name: "bundle", Fixed: 1000}},
		Rows:     []Row{{Name: "piece", Limit: 1}},
	}
	for _, name := range []string{"left", "right", "other", "another"} {
		g := Group{Name: name, Columns: []Column{{Name: "else", Cost: 900}}}
		if len(p.Groups) < 2 {
			g.Columns = append(g.Columns, Column{Name: "piece", Terms: []Term{{0, 1}}, Needs: []int{0}})
		}
		p.Groups = append(p.Groups, g)
	}
	return p
}

// TestRowLinks: half a piece in each of two places costs all of what it comes with.
func TestRowLinks(t *testing.T) {
	for _, leave := range []without{{blocks: true}, {blocks: true, rowLinks: true}} {
		in := newInstance(twoPlaces(), &Change{}, leave)
		in.findBlocks(false)
		d := in.fullDomain()
		m := in.newMaster(d, in.newPool(), true)
		r, err := m.relax(d, nil, Limit, allRounds)
		m.close()
		if err != nil || r == nil {
			t.Fatal(r, err)
		}
		want := 4*900 - 900 + 1000 // one place filled by the piece: dearer than without
		if want = min(want, 4*900); leave.rowLinks {
			want = 2*900 + 900 + 500 // half of the piece in each
		}
		if r.bound.lower() != int64(want) {
			t.Errorf("without links of rows %v: bound %v, want %v", leave.rowLinks, r.bound.lower(), want)
		}
	}
}

// sharedPlaces draws a problem with rows that two groups share, with room for one column or for
// more, and switches that make room or take it.
func sharedPlaces(r *rand.Rand) *Problem {
	p := &Problem{}
	const n = 6 // of which three may share a row that is none of most groups
	for range 2 {
		p.Switches = append(p.Switches, Switch{Fixed: r.Int64N(2000), Voluntary: r.IntN(3) == 0})
	}
	for g := range n {
		p.Groups = append(p.Groups, Group{})
		for range 1 + r.IntN(2) {
			c := Column{Cost: r.Int64N(3000)}
			for h := range p.Switches {
				if r.IntN(2) == 0 && !p.Switches[h].Voluntary {
					c.Needs = append(c.Needs, h)
				}
			}
			p.Groups[g].Columns = append(p.Groups[g].Columns, c)
		}
	}
	for row := range 3 {
		p.Rows = append(p.Rows, Row{Limit: r.Int64N(4)})
		for _, g := range r.Perm(n)[:2+r.IntN(2)] {
			for c := range p.Groups[g].Columns {
				k := &p.Groups[g].Columns[c]
				if at := len(k.Terms); r.IntN(3) > 0 && (at == 0 || k.Terms[at-1].Row < row) {
					k.Terms = append(k.Terms, Term{row, []int64{-1, 1, 1, 1, 2, 3}[r.IntN(6)]})
				}
			}
		}
		if h := r.IntN(len(p.Switches)); r.IntN(2) == 0 {
			p.Switches[h].Terms = append(p.Switches[h].Terms, Term{row, []int64{-1, 1}[r.IntN(2)]})
		}
	}
	return p
}

// TestRowLinksByTrying: in every solution the columns of a link of a row come to one at
// most, and to none where its switch is off.
func TestRowLinksByTrying(t *testing.T) {
	links, picked := 0, 0
	for seed := range uint64(campaign.Cases(2000, 40_000)) {
		p := sharedPlaces(rand.New(rand.NewPCG(seed, 71)))
		in := newInstance(p, &Change{}, without{})
		eachPick(p, in, func(pick []int, on []bool, _ int64) {
			count := make([]int, len(in.links))
			for _, c := range pick {
				for _, l := range in.cols[c].links {
					count[l]++
				}
			}
			for l, k := range in.links {
				most := 0
				if on[k.sw] {
					most = 1
				}
				if k.group >= len(in.groups) {
					if links++; count[l] > 0 {
						picked++
					}
				}
				if count[l] > most {
					t.Errorf("seed %d: link %v has %d columns picked, its switch on: %v", seed, k, count[l], on[k.sw])
				}
			}
		})
	}
	if links < 40 || picked < 20 {
		t.Errorf("only %d links of rows looked at, %d with a column picked", links, picked)
	}
}
