package solver

import (
	"fmt"
	"math/rand/v2"
)

// randomProblem makes a small problem in which every kind of constraint occurs.
func randomProblem(r *rand.Rand, groups, columns int) *Problem {
	p := &Problem{}
	rows := 1 + r.IntN(4)
	for i := range rows {
		row := Row{Name: fmt.Sprintf("row%d", i), Tag: Tag(fmt.Sprintf("row%d", i)), Charges: i == 0 && r.IntN(2) == 0}
		if i == 1 {
			row.Sense = AtLeast
		}
		p.Rows = append(p.Rows, row)
	}
	for h := range r.IntN(5) {
		s := Switch{Name: fmt.Sprintf("switch%d", h), Fixed: r.Int64N(60), Tag: Tag(fmt.Sprintf("switch%d", h))}
		if r.IntN(2) == 0 {
			s.Minimum = r.Int64N(120)
		}
		if h > 0 && r.IntN(4) == 0 {
			s.Needs = []int{r.IntN(h)}
		}
		if r.IntN(4) == 0 {
			s.Voluntary, s.Fixed, s.Minimum = true, -r.Int64N(50), 0
			s.Terms = []Term{{r.IntN(rows), r.Int64N(20)}}
		}
		p.Switches = append(p.Switches, s)
	}
	if r.IntN(2) == 0 {
		randomAccounts(r, p)
	}
	for g := range groups {
		p.Groups = append(p.Groups, randomGroup(r, p, g, 1+r.IntN(columns)))
	}
	for i := range rows {
		slack := int64(groups) * 10
		p.Rows[i].Limit = slack/2 + r.Int64N(slack)
		if p.Rows[i].Charges {
			p.Rows[i].Limit += 120
		}
	}
	if groups > 1 && r.IntN(4) > 0 {
		n := WithinTolerance{Name: "near", Tag: "near", Tolerance: r.Int64N(6), Groups: []int{0, 1}}
		if groups > 2 && r.IntN(2) == 0 {
			n.Groups = []int{0, 1, 2}
		}
		for _, g := range n.Groups {
			var v []int64
			for range p.Groups[g].Columns {
				v = append(v, r.Int64N(12))
			}
			n.Values = append(n.Values, v)
		}
		p.WithinTolerance = append(p.WithinTolerance, n)
	}
	if groups > 2 && r.IntN(2) == 0 {
		s := AllEqual{Name: "same", Tag: "same", Groups: []int{1, groups - 1}}
		for _, g := range s.Groups {
			var v []int
			for range p.Groups[g].Columns {
				v = append(v, r.IntN(4)-1)
			}
			s.Labels = append(s.Labels, v)
		}
		p.AllEqual = append(p.AllEqual, s)
	}
	return p
}

// randomAccounts lets some switches charge accounts of their own, and some rows limit
// what goes there.
func randomAccounts(r *rand.Rand, p *Problem) {
	for h := range p.Switches {
		p.Switches[h].Account = min(r.IntN(3), len(p.Switches)+len(p.Rows))
	}
	for i := range p.Rows {
		if p.Rows[i].Sense == AtMost && r.IntN(2) == 0 {
			p.Rows[i].Charges, p.Rows[i].Account = true, min(r.IntN(3), len(p.Switches)+len(p.Rows))
		}
	}
}

func randomGroup(r *rand.Rand, p *Problem, g, n int) Group {
	group := Group{Name: fmt.Sprintf("group%d", g)}
	spread := r.Int64N(100) // some groups earn money
	for range n {
		c := Column{Cost: r.Int64N(100) - spread, Tie: [2]int64{r.Int64N(3), r.Int64N(3)}}
		for i := range p.Rows {
			if r.IntN(3) > 0 {
				c.Terms = append(c.Terms, Term{i, r.Int64N(24) - 2})
			}
		}
		for h := range p.Switches {
			if !p.Switches[h].Voluntary && r.IntN(3) == 0 {
				c.Needs = append(c.Needs, h)
				if r.IntN(2) == 0 {
					c.Loads = append(c.Loads, Load{h, r.Int64N(70)})
				}
			}
		}
		group.Columns = append(group.Columns, c)
	}
	return group
}

func randomChange(r *rand.Rand, p *Problem) Change {
	var ch Change
	g := r.IntN(len(p.Groups))
	at := Pick{g, r.IntN(len(p.Groups[g].Columns))}
	switch r.IntN(6) {
	case 0:
		ch.Fix = []Pick{at}
	case 1:
		ch.Ban = []Pick{at}
	case 2:
		ch.Costs = []CostTo{{at, r.Int64N(200)}}
	case 3:
		ch.Limits = []LimitTo{{r.IntN(len(p.Rows)), r.Int64N(100)}}
	case 4:
		ch.Off = []Tag{"near", p.Rows[0].Tag}
	case 5:
		if len(p.Switches) > 0 && !p.Switches[0].Voluntary {
			ch.Fixed = []FixedTo{{0, r.Int64N(200)}}
			ch.Off = []Tag{"same"}
		}
	}
	return ch
}
