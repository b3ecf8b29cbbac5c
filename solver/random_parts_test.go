package solver

import (
	"fmt"
	"math/rand/v2"
)

// randomParts makes a small problem of two or three parts that share rows and switches,
// each with rows, switches and rules of its own.
func randomParts(r *rand.Rand) *Problem {
	p := &Problem{}
	commonRows := 1 + r.IntN(3)
	for i := range commonRows {
		p.Rows = append(p.Rows, Row{Name: fmt.Sprintf("common%d", i), Limit: 2 + r.Int64N(4)})
	}
	sharedSwitches := 1 + r.IntN(3)
	for h := range sharedSwitches {
		s := Switch{Name: fmt.Sprintf("shared%d", h), Fixed: r.Int64N(60)}
		if r.IntN(2) == 0 {
			s.Minimum = r.Int64N(120)
		}
		if h > 0 && r.IntN(3) == 0 {
			s.Needs = []int{r.IntN(h)}
		}
		p.Switches = append(p.Switches, s)
	}
	for n := range 2 + r.IntN(2) {
		p.Parts = append(p.Parts, len(p.Groups))
		randomPart(r, p, n, commonRows, sharedSwitches)
	}
	return p
}

// randomPart adds one part.
func randomPart(r *rand.Rand, p *Problem, n, commonRows, sharedSwitches int) {
	own := len(p.Rows)
	p.Rows = append(p.Rows, Row{Name: fmt.Sprintf("own%d", n), Sense: AtMost, Limit: 15 + r.Int64N(25)})
	if r.IntN(2) == 0 {
		p.Rows[own].Sense, p.Rows[own].Limit = AtLeast, 3+r.Int64N(12)
	}
	budget := r.IntN(2) == 0
	if budget {
		p.Rows = append(p.Rows, Row{
			Name:    fmt.Sprintf("budget%d", n),
			Limit:   60 + r.Int64N(160),
			Charges: true,
			Account: n + 1,
		})
	}
	local := []int{len(p.Switches)}
	p.Switches = append(p.Switches, Switch{Name: fmt.Sprintf("local%d", n), Fixed: r.Int64N(40), Minimum: r.Int64N(60)})
	twins := make([]int, sharedSwitches) // what the part would pay for a shared switch by itself
	if budget {
		for h := range twins {
			s := p.Switches[h]
			s.Account, s.Needs = n+1, nil
			for _, k := range p.Switches[h].Needs {
				s.Needs = append(s.Needs, twins[k])
			}
			twins[h] = len(p.Switches)
			p.Switches = append(p.Switches, s)
		}
	}
	if r.IntN(2) == 0 {
		s := Switch{Name: fmt.Sprintf("trade%d", n), Fixed: -r.Int64N(40), Voluntary: true, Terms: []Term{{own, r.Int64N(9)}}}
		if r.IntN(2) == 0 {
			s.Terms = append([]Term{{r.IntN(commonRows), 1}}, s.Terms...)
		}
		p.Switches = append(p.Switches, s)
	}
	first := len(p.Groups)
	for range 1 + r.IntN(2) {
		g := Group{Name: fmt.Sprintf("group%d", len(p.Groups))}
		for range 1 + r.IntN(3) {
			g.Columns = append(g.Columns, randomPartColumn(r, p, own, budget, commonRows, sharedSwitches, local, twins))
		}
		p.Groups = append(p.Groups, g)
	}
	if len(p.Groups)-first == 2 && r.IntN(2) == 0 {
		near := WithinTolerance{Name: "near", Groups: []int{first, first + 1}, Tolerance: r.Int64N(6)}
		for _, g := range near.Groups {
			var v []int64
			for range p.Groups[g].Columns {
				v = append(v, r.Int64N(12))
			}
			near.Values = append(near.Values, v)
		}
		p.WithinTolerance = append(p.WithinTolerance, near)
	}
}

func randomPartColumn(r *rand.Rand, p *Problem, own int, budget bool, commonRows, sharedSwitches int,
	local, twins []int) Column {
	c := Column{Cost: r.Int64N(120) - 20, Tie: [2]int64{r.Int64N(3), r.Int64N(3)}}
	for i := range commonRows {
		if r.IntN(3) == 0 {
			c.Terms = append(c.Terms, Term{i, 1 + r.Int64N(2)})
		}
	}
	c.Terms = append(c.Terms, Term{own, 1 + r.Int64N(20)})
	if budget {
		c.Terms = append(c.Terms, Term{own + 1, r.Int64N(90)})
	}
	more := []int{}
	for h := range sharedSwitches {
		if r.IntN(2) == 0 {
			c.Needs = append(c.Needs, h)
			amount := r.Int64N(70)
			c.Loads = append(c.Loads, Load{h, amount})
			if budget {
				more = append(more, twins[h])
			}
		}
	}
	if r.IntN(2) == 0 {
		c.Needs = append(c.Needs, local[0])
		c.Loads = append(c.Loads, Load{local[0], r.Int64N(40)})
	}
	for i, h := range more {
		c.Needs = append(c.Needs, h)
		c.Loads = append(c.Loads, Load{h, c.Loads[i].Amount})
	}
	return c
}
