package solver

import "fmt"

// sums are the largest absolute values that the sums of a problem can reach.
type sums struct {
	costs   []int64 // per group, of its column
	charges int64   // of all switches
	total   int64
	rows    []int64 // charges included
}

// adder adds absolute values up, and remembers whether a sum went beyond Limit.
type adder struct{ beyond bool }

func (a *adder) add(sum *int64, v int64) {
	if a.beyond {
		return // nothing more is of interest, and it could overflow
	}
	*sum += magnitude(v)
	a.beyond = *sum > Limit
}

// addTimes adds a value so many times.
func (a *adder) addTimes(sum *int64, v, times int64) {
	if a.beyond = a.beyond || magnitude(v) > Limit/times; !a.beyond {
		a.add(sum, v*times)
	}
}

func tooLargeSum() error {
	return fmt.Errorf("a sum can exceed 2^53, more than the program can add up exactly")
}

// addUp gives the sums of the problem, or an error if one can exceed Limit: of costs
// and charges, of a row, of what is counted towards a minimum, of a tie.
func (p *Problem) addUp() (*sums, error) {
	s := &sums{costs: make([]int64, len(p.Groups)), rows: make([]int64, len(p.Rows))}
	a := &adder{}
	for h := range p.Switches {
		w := &p.Switches[h]
		a.add(&s.charges, w.Fixed)
		a.add(&s.charges, w.Minimum)
		for _, t := range w.Terms {
			a.add(&s.rows[t.Row], t.Coef)
		}
	}
	a.add(&s.total, s.charges)
	p.addGroups(s, a)
	for r := range s.rows {
		if p.Rows[r].Charges {
			a.add(&s.rows[r], s.charges)
		}
	}
	if a.beyond {
		return nil, tooLargeSum()
	}
	return s, nil
}

// addGroups adds what one column of every group comes to at most.
func (p *Problem) addGroups(s *sums, a *adder) {
	rows, loads := newMost(len(p.Rows)), newMost(len(p.Switches))
	ties, load := [2]int64{}, make([]int64, len(p.Switches))
	for g := range p.Groups {
		tie := [2]int64{}
		for i := range p.Groups[g].Columns {
			c := &p.Groups[g].Columns[i]
			s.costs[g] = max(s.costs[g], magnitude(c.Cost))
			for _, t := range c.Terms {
				rows.see(t.Row, magnitude(t.Coef))
			}
			for _, l := range c.Loads {
				loads.see(l.Switch, l.Amount)
			}
			for k := range tie {
				tie[k] = max(tie[k], magnitude(c.Tie[k]))
			}
		}
		a.add(&s.total, s.costs[g])
		rows.spill(s.rows, a)
		loads.spill(load, a)
		for k := range tie {
			a.add(&ties[k], tie[k])
		}
	}
}

// most is the largest value seen, of a few out of many.
type most struct {
	value []int64
	met   []int
}

func newMost(n int) *most { return &most{value: make([]int64, n)} }

func (m *most) see(i int, v int64) {
	if m.value[i] == 0 && v > 0 {
		m.met = append(m.met, i)
	}
	m.value[i] = max(m.value[i], v)
}

// spill adds what was seen to the sums and forgets it.
func (m *most) spill(into []int64, a *adder) {
	for _, i := range m.met {
		a.add(&into[i], m.value[i])
		m.value[i] = 0
	}
	m.met = m.met[:0]
}

// with says whether the sums stay within Limit under a change, too.
func (s *sums) with(p *Problem, ch *Change) error {
	if len(ch.Costs)+len(ch.Fixed) == 0 {
		return nil
	}
	a := &adder{}
	charges, total := int64(0), int64(0)
	fixed := map[int]int64{}
	for _, f := range ch.Fixed {
		fixed[f.Switch] = f.Fixed
	}
	for h := range p.Switches {
		v, is := fixed[h]
		if !is {
			v = p.Switches[h].Fixed
		}
		a.add(&charges, v)
		a.add(&charges, p.Switches[h].Minimum)
	}
	a.add(&total, charges)
	cost, changed := map[Pick]int64{}, map[int]bool{}
	for _, c := range ch.Costs {
		cost[c.Pick], changed[c.Group] = c.Cost, true
	}
	for g := range s.costs {
		v := s.costs[g]
		if changed[g] {
			v = p.costAtMost(g, cost)
		}
		a.add(&total, v)
	}
	for r := range s.rows {
		if p.Rows[r].Charges {
			sum := s.rows[r] - s.charges
			a.add(&sum, charges)
		}
	}
	if a.beyond {
		return fmt.Errorf("change: %w", tooLargeSum())
	}
	return nil
}

// costAtMost is the largest absolute cost of a group, some costs being others.
func (p *Problem) costAtMost(g int, other map[Pick]int64) int64 {
	v := int64(0)
	for i := range p.Groups[g].Columns {
		c, is := other[Pick{g, i}]
		if !is {
			c = p.Groups[g].Columns[i].Cost
		}
		v = max(v, magnitude(c))
	}
	return v
}
