package solver

import (
	"fmt"
	"math/rand/v2"
)

// realProblem makes a small problem with numbers of the sizes of jobs, in which every
// kind of constraint occurs. Limits are those that some pick just meets or just misses.
func realProblem(r *rand.Rand, groups, columns int) *Problem {
	s := &sizes{Rand: r}
	p := &Problem{Uncharged: r.IntN(12) == 0}
	switches := r.IntN(5)
	s.most = Limit / int64(groups+2*switches+1)
	money := []int64{5_000, 500_000, 50_000_000, s.most}[r.IntN(4)]
	var kinds []realRow
	for i := range 1 + r.IntN(5) {
		k := r.IntN(realKinds)
		row := Row{
			Name:    fmt.Sprintf("row%d", i),
			Tag:     Tag(fmt.Sprintf("row%d", i)),
			Charges: k == budget || k == edge && r.IntN(4) == 0,
		}
		if row.Charges {
			row.Account = r.IntN(2)
		} else if k == mean || r.IntN(4) == 0 {
			row.Sense = AtLeast
		}
		in := realRow{k, nil}
		if groups > 3 && r.IntN(2) == 0 {
			in.groups = r.Perm(groups)[:2+r.IntN(2)]
		}
		kinds, p.Rows = append(kinds, in), append(p.Rows, row)
	}
	for h := range switches {
		p.Switches = append(p.Switches, s.realSwitch(p, kinds, h, money))
	}
	for g := range groups {
		p.Groups = append(p.Groups, s.realGroup(p, kinds, g, 1+r.IntN(columns), money))
	}
	s.realRules(p)
	s.realLimits(p)
	return p
}

func (s *sizes) realSwitch(p *Problem, kinds []realRow, h int, money int64) Switch {
	w := Switch{
		Name:    fmt.Sprintf("switch%d", h),
		Fixed:   s.up(money),
		Account: s.IntN(4) / 3,
		Tag:     Tag(fmt.Sprintf("switch%d", h)),
	}
	if s.IntN(5) == 0 {
		w.Fixed = -w.Fixed
	}
	if s.IntN(2) == 0 {
		w.Minimum = s.up(money)
	}
	if h > 0 && s.IntN(3) == 0 {
		w.Needs = []int{s.IntN(h)}
	}
	if s.IntN(3) == 0 {
		w.Voluntary, w.Fixed, w.Minimum = true, -s.up(money), 0
	}
	if w.Voluntary || s.IntN(4) == 0 {
		row := s.IntN(len(p.Rows))
		w.Terms = []Term{{row, s.coef(kinds[row].kind, money)}}
		if s.IntN(3) == 0 {
			w.Terms[0].Coef = -w.Terms[0].Coef
		}
	}
	return w
}

func (s *sizes) realGroup(p *Problem, kinds []realRow, g, n int, money int64) Group {
	group := Group{Name: fmt.Sprintf("group%d", g)}
	for range n {
		c := Column{Cost: s.up(money), Tie: [2]int64{s.any(1000), s.any(money)}}
		if s.IntN(6) == 0 {
			c.Cost = -c.Cost
		}
		for i, k := range kinds {
			often := 3 // of four
			if k.kind == piece || k.kind == linked {
				often = 2
			}
			if s.IntN(4) < often && (k.groups == nil || contains(k.groups, g)) {
				c.Terms = append(c.Terms, Term{i, s.coef(k.kind, money)})
			}
		}
		for h := range p.Switches {
			if s.IntN(4) == 0 && (!p.Switches[h].Voluntary || s.IntN(4) == 0) {
				c.Needs = append(c.Needs, h)
				if s.IntN(2) == 0 {
					c.Loads = append(c.Loads, Load{h, s.up(money)})
				}
			}
		}
		group.Columns = append(group.Columns, c)
	}
	return group
}

// realRules ties some groups together.
func (s *sizes) realRules(p *Problem) {
	groups := len(p.Groups)
	for i := range s.IntN(4) {
		if groups < 2 {
			return
		}
		list := s.some(groups)
		most := []int64{10_000, 600, Limit}[s.IntN(3)]
		n := WithinTolerance{Name: fmt.Sprintf("near%d", i), Tag: "near", Groups: list}
		for _, g := range list {
			var v []int64
			for range p.Groups[g].Columns {
				v = append(v, s.any(most))
			}
			n.Values = append(n.Values, v)
		}
		a, b := n.Values[0], n.Values[1]
		n.Tolerance = min(Limit, max(0, magnitude(a[s.IntN(len(a))]-b[s.IntN(len(b))])+s.Int64N(3)-1))
		p.WithinTolerance = append(p.WithinTolerance, n)
	}
	if groups > 1 && s.IntN(3) == 0 {
		same := AllEqual{Name: "same", Tag: "same", Groups: s.some(groups)}
		for _, g := range same.Groups {
			var v []int
			for range p.Groups[g].Columns {
				v = append(v, []int{-1, 0, 1, 55_300, 55_301, 1 << 40}[s.IntN(6)])
			}
			same.Labels = append(same.Labels, v)
		}
		p.AllEqual = append(p.AllEqual, same)
	}
}

// some gives two groups or more, ascending.
func (s *sizes) some(groups int) []int {
	list := s.Perm(groups)[:min(groups, 2+s.IntN(3))]
	out := []int{}
	for g := range groups {
		for _, k := range list {
			if k == g {
				out = append(out, g)
			}
		}
	}
	return out
}

// realLimits sets every row's limit to what one random pick comes to in it, or near it, and
// gives that pick.
func (s *sizes) realLimits(p *Problem) []int {
	pick := make([]int, len(p.Groups))
	for g := range pick {
		pick[g] = s.IntN(len(p.Groups[g].Columns))
	}
	o := p.Evaluate(pick, nil, Change{})
	for r := range p.Rows {
		row := &p.Rows[r]
		sum := p.rowSum(r, &Result{Pick: pick, On: o.On})
		for h := range p.Switches {
			if row.Charges && p.Switches[h].Account == row.Account {
				sum += o.Charge[h]
			}
		}
		switch s.IntN(4) {
		case 0:
			sum += s.Int64N(3) - 1
		case 1:
			sum += s.any(1000)
		}
		row.Limit = max(-Limit, min(Limit, sum))
	}
	return pick
}

// realChange changes one thing or two.
func realChange(r *rand.Rand, p *Problem) (ch Change) {
	s := &sizes{Rand: r, most: Limit / int64(2*len(p.Groups)+2*len(p.Switches)+2)}
	for range 1 + r.IntN(2) {
		g := r.IntN(len(p.Groups))
		at := Pick{g, r.IntN(len(p.Groups[g].Columns))}
		switch k := r.IntN(6); {
		case k == 0:
			ch.Fix = []Pick{at}
		case k == 1:
			ch.Ban = append(ch.Ban, at)
		case k == 2:
			ch.Costs = append(ch.Costs, CostTo{at, s.any([]int64{5_000, s.most}[r.IntN(2)])})
		case k == 3:
			row := r.IntN(len(p.Rows))
			ch.Limits = append(ch.Limits, LimitTo{row, max(-Limit, min(Limit, p.Rows[row].Limit+s.any(14_000_000)))})
		case k == 4:
			ch.Off = append(ch.Off, []Tag{"near", "same", p.Rows[0].Tag, "switch0"}[r.IntN(4)])
		case len(p.Switches) > 0:
			ch.Fixed = append(ch.Fixed, FixedTo{r.IntN(len(p.Switches)), s.any([]int64{5_000, s.most}[r.IntN(2)])})
		}
	}
	return ch
}

// realBlocks makes a small problem whose groups are tied together by a rule and by rows
// in which few of them take part, some of the rows with room made by a group outside.
func realBlocks(r *rand.Rand) *Problem {
	s := &sizes{Rand: r, most: Limit / 16}
	p := &Problem{}
	var kinds []realRow
	for i := range 1 + r.IntN(3) {
		in := []int{0, 1, 2 + r.IntN(3), 5}[:2+r.IntN(3)]
		kinds = append(kinds, realRow{[]int{completion, mean, piece, linked}[r.IntN(4)], in})
		p.Rows = append(p.Rows, Row{Name: fmt.Sprintf("row%d", i)})
	}
	for g := range 5 + r.IntN(2) {
		p.Groups = append(p.Groups, s.realGroup(p, kinds, g, 2+r.IntN(4)*(1-min(1, g/3)), 50_000))
	}
	n := WithinTolerance{Name: "near", Groups: []int{0, 1, 2}[:2+r.IntN(2)], Tolerance: 500 + r.Int64N(10_000)}
	for _, g := range n.Groups {
		var v []int64
		for range p.Groups[g].Columns {
			v = append(v, []int64{0, 9_000, s.up(10_000)}[r.IntN(3)])
		}
		n.Values = append(n.Values, v)
	}
	p.WithinTolerance = []WithinTolerance{n}
	for g, c := range s.realLimits(p) { // what just fits is often cheap
		p.Groups[g].Columns[c].Cost -= s.up(20_000)
	}
	return p
}
