package solver

import "fmt"

// Outcome is what one full choice of columns comes to, worked out from the
// Problem alone.
type Outcome struct {
	Total  int64
	On     []bool
	Charge []int64
	Broken []string // names of the constraints it breaks
}

// Evaluate adds up a choice of one column per group, with the voluntary
// switches given as on, under a change. It shares nothing with the search: every
// answer is put through it before it is returned.
func (p *Problem) Evaluate(pick []int, voluntary []bool, ch Change) Outcome {
	out := Outcome{On: make([]bool, len(p.Switches)), Charge: make([]int64, len(p.Switches))}
	off := map[Tag]bool{"": false}
	for _, t := range ch.Off {
		off[t] = t != ""
	}
	rows := make([]int64, len(p.Rows))
	load := make([]int64, len(p.Switches))
	for g, c := range pick {
		if g >= len(p.Groups) || c < 0 || c >= len(p.Groups[g].Columns) {
			out.Broken = append(out.Broken, fmt.Sprintf("group %d has no column %d", g, c))
			return out
		}
		col := &p.Groups[g].Columns[c]
		out.Total += changedCost(col.Cost, Pick{g, c}, ch.Costs)
		for _, t := range col.Terms {
			rows[t.Row] += t.Coef
		}
		for _, h := range col.Needs {
			p.turnOn(h, out.On)
		}
		for _, l := range col.Loads {
			load[l.Switch] += l.Amount
		}
	}
	if len(pick) != len(p.Groups) {
		out.Broken = append(out.Broken, "not one column per group")
	}
	for h := range p.Switches {
		if h < len(voluntary) && voluntary[h] && p.Switches[h].Voluntary {
			p.turnOn(h, out.On)
		}
	}
	charges := p.charges(&out, load, off, ch, rows)
	if !p.Uncharged {
		out.Total += charges[0]
	}
	p.judge(&out, pick, rows, charges, off, ch)
	return out
}

func changedCost(cost int64, at Pick, costs []CostTo) int64 {
	for _, c := range costs {
		if c.Pick == at {
			cost = c.Cost
		}
	}
	return cost
}

func (p *Problem) turnOn(h int, on []bool) {
	if on[h] {
		return
	}
	on[h] = true
	for _, n := range p.Switches[h].Needs {
		p.turnOn(n, on)
	}
}

func (p *Problem) charges(out *Outcome, load []int64, off map[Tag]bool, ch Change, rows []int64) []int64 {
	sum := make([]int64, p.accounts()) // per account
	for h := range p.Switches {
		if !out.On[h] {
			continue
		}
		s := &p.Switches[h]
		for _, t := range s.Terms {
			rows[t.Row] += t.Coef
		}
		if off[s.Tag] {
			continue
		}
		fixed := s.Fixed
		for _, f := range ch.Fixed {
			if f.Switch == h {
				fixed = f.Fixed
			}
		}
		out.Charge[h] = fixed + max(0, s.Minimum-load[h])
		sum[s.Account] += out.Charge[h]
	}
	return sum
}

func (p *Problem) judge(out *Outcome, pick []int, rows []int64, charges []int64, off map[Tag]bool, ch Change) {
	for r := range p.Rows {
		row := &p.Rows[r]
		limit := row.Limit
		for _, l := range ch.Limits {
			if l.Row == r {
				limit = l.Limit
			}
		}
		sum := rows[r]
		if row.Charges {
			sum += charges[row.Account]
		}
		if !off[row.Tag] && ((row.Sense == AtMost && sum > limit) || (row.Sense == AtLeast && sum < limit)) {
			out.Broken = append(out.Broken, row.Name)
		}
	}
	for i := range p.WithinTolerance {
		n := &p.WithinTolerance[i]
		for a, g := range n.Groups {
			for b, k := range n.Groups[:a] {
				if !off[n.Tag] && magnitude(n.Values[a][pick[g]]-n.Values[b][pick[k]]) > n.Tolerance {
					out.Broken = append(out.Broken, n.Name)
				}
			}
		}
	}
	for i := range p.AllEqual {
		s := &p.AllEqual[i]
		for a, g := range s.Groups {
			for b, k := range s.Groups[:a] {
				la, lb := s.Labels[a][pick[g]], s.Labels[b][pick[k]]
				if !off[s.Tag] && la >= 0 && lb >= 0 && la != lb {
					out.Broken = append(out.Broken, s.Name)
				}
			}
		}
	}
}
