package solver

import (
	"cmp"
	"slices"
)

// chooser finds which voluntary switches go on beside one pick: those that make
// the total least without breaking a row, and of equal settings the one in which
// the first switch that differs is off. Switches that nothing else has a say in
// are settled one by one; what is left falls into sets that share a row that
// could be full, or a switch that only they need, and each set is searched by
// bounds. The search looks at so many settings and no more: where that is not
// enough it says so, and branching settles the switches instead.
type chooser struct {
	t      *tally
	y      []int8 // what a domain leaves of the switches; nil: all open
	budget int    // settings it may still look at
	open   []int  // switches that are not settled yet, ascending

	effects []effect // per switch, of those that are open
	sharers []int    // per switch, how many open ones would turn it on
	row     []span   // per row, what is sure and what open switches can add
	rows    []int    // those that count: all, or those that a set has a say in
}

// effect is what turning a switch on does, with all that it needs. What several
// open switches need is paid by one of them: hence the two ends.
type effect struct {
	cost span
	rows []spanAt
}

type span struct{ lo, hi int64 }

type spanAt struct {
	row int
	span
}

// mostSettings is how many settings are looked at beside one pick.
const mostSettings = 400

// chooser is one for t; it is used again as long as t is.
func (t *tally) chooser(y []int8, budget int) *chooser {
	in := t.in
	if t.choice == nil {
		t.choice = &chooser{t: t, effects: make([]effect, len(in.switches)), sharers: make([]int, len(in.switches)), row: make([]span, len(in.rows))}
	}
	c := t.choice
	c.y, c.budget, c.rows = y, budget, in.every
	return c
}

// withVoluntary turns on the voluntary switches that are best beside the pick,
// calls found if no row is then broken, and turns them off again. Settings that
// come to more than most are of no interest. It says whether that is
// proven to be the best setting that y leaves, or that there is none; else it
// has looked at budget settings, and those found may not be the best.
func (t *tally) withVoluntary(y []int8, most int64, budget int, found func()) (exact bool, used int) {
	in := t.in
	if len(in.voluntary) == 0 {
		if !t.exceeded() {
			found()
		}
		return true, 0
	}
	c := t.chooser(y, budget)
	c.open = in.voluntary
	was := len(t.turned)
	exact = c.run(most, found)
	t.turnBack(was)
	return exact, budget - c.budget
}

// exceeded says whether some row is beyond its limit.
func (t *tally) exceeded() bool {
	charges := t.charges()
	for r := range t.rows {
		if t.excess(r, charges) > 0 {
			return true
		}
	}
	return false
}

func (c *chooser) run(most int64, found func()) bool {
	if !c.narrow() || c.least() > most {
		return true
	}
	exact := true
	sets := c.sets()
	for _, set := range sets {
		s := &settings{c: c, set: set, exact: true}
		c.open, c.rows = set, c.rowsOf(set)
		s.greedy()
		s.walk()
		exact = exact && s.exact
		if !s.has {
			return exact
		}
		for _, h := range s.on {
			c.t.turn(h)
		}
	}
	if !c.t.exceeded() {
		found()
	}
	return exact
}

// narrow settles open switches one by one as long as something follows. False: no
// setting keeps the rows.
func (c *chooser) narrow() bool {
	for {
		if !c.weigh() {
			return false
		}
		left := c.open[:0:0]
		changed := false
		for _, h := range c.open {
			switch way, ok := c.follows(h); {
			case !ok:
				return false
			case way == open:
				left = append(left, h)
			default: // what follows for others was weighed before, and still does
				if changed = true; way == on {
					c.t.turn(h)
				}
			}
		}
		c.open = left
		if !changed {
			return true
		}
	}
}

// follows is what the rows, the domain and the cost make of one open switch.
func (c *chooser) follows(h int) (way int8, ok bool) {
	e := &c.effects[h]
	may, must := c.mayBeOn(h), c.y != nil && c.y[h] == on
	free, needless := true, true // on breaks nothing; off breaks nothing
	for _, k := range e.rows {
		s, limit := c.row[k.row], c.t.in.rows[k.row].limit
		may = may && s.lo-min(0, k.lo)+k.lo <= limit
		must = must || s.lo-min(0, k.lo) > limit
		if s.hi > limit {
			free = free && k.hi <= 0
			needless = needless && k.lo >= 0
		}
	}
	switch {
	case c.t.need[h] > 0:
		return off, true // a column needs it: it is on as it is
	case must && !may:
		return open, false
	case must:
		return on, true
	case !may:
		return off, true
	case free && e.cost.hi < 0:
		return on, true
	case needless && e.cost.lo >= 0:
		return off, true
	}
	return open, true
}

// mayBeOn says whether the domain leaves the switch and what it needs.
func (c *chooser) mayBeOn(h int) bool {
	if c.y == nil {
		return true
	}
	for _, n := range c.t.in.switches[h].needs {
		if c.y[n] == off {
			return false
		}
	}
	return c.y[h] != off
}

// least is the least that the total can come to.
func (c *chooser) least() int64 {
	sum := c.t.total(c.t.charges())
	for _, h := range c.open {
		sum += min(0, c.effects[h].cost.lo)
	}
	return sum
}

// sets are the open switches, those together that can be in each other's way.
func (c *chooser) sets() [][]int {
	parent := map[int]int{}
	var root func(h int) int
	root = func(h int) int {
		if p, ok := parent[h]; ok && p != h {
			return root(p)
		}
		return h
	}
	first := map[int]int{} // of a row, or below 0 of a switch
	join := func(key, h int) {
		if f, ok := first[key]; ok {
			parent[max(root(f), root(h))] = min(root(f), root(h))
		} else {
			first[key] = h
		}
	}
	for _, h := range c.open {
		for _, k := range c.effects[h].rows {
			if c.row[k.row].hi > c.t.in.rows[k.row].limit {
				join(k.row, h)
			}
		}
		for _, n := range c.t.in.switches[h].needs {
			if c.sharers[n] > 1 {
				join(-1-n, h)
			}
		}
	}
	var out [][]int
	at := map[int]int{}
	for _, h := range c.open {
		r := root(h)
		if _, ok := at[r]; !ok {
			at[r] = len(out)
			out = append(out, nil)
		}
		out[at[r]] = append(out[at[r]], h)
	}
	return out
}

// rowsOf are the rows that a set has a say in. Those of another are none of its own,
// or have room for all.
func (c *chooser) rowsOf(set []int) []int {
	var out []int
	for _, h := range set {
		for _, k := range c.effects[h].rows {
			if !contains(out, k.row) {
				out = append(out, k.row)
			}
		}
	}
	return out
}

// weigh works out what every open switch would do. False: some row is broken
// whatever they do.
func (c *chooser) weigh() bool {
	in, t := c.t.in, c.t
	charges := t.charges()
	clear(c.sharers)
	for _, h := range c.open {
		c.sharers[h]++
		for _, n := range in.switches[h].needs {
			c.sharers[n]++
		}
	}
	for _, r := range c.rows {
		v := t.rows[r]
		if in.rows[r].charges {
			v += charges[in.rows[r].account]
		}
		c.row[r] = span{v, v}
	}
	for _, h := range c.open {
		e := &c.effects[h]
		e.cost, e.rows = span{}, e.rows[:0]
		if c.t.need[h] > 0 {
			continue
		}
		e.add(c, h)
		for _, n := range in.switches[h].needs {
			if t.need[n] == 0 {
				e.add(c, n)
			}
		}
		for _, k := range e.rows {
			c.row[k.row].lo += min(0, k.lo)
			c.row[k.row].hi += max(0, k.hi)
		}
	}
	for _, r := range c.rows {
		if c.row[r].lo > in.rows[r].limit {
			return false
		}
	}
	return true
}

// add counts in what switch n does when it goes on.
func (e *effect) add(c *chooser, n int) {
	in, s := c.t.in, &c.t.in.switches[n]
	shared := c.sharers[n] > 1
	charge := s.fixed + max(0, s.minimum-c.t.load[n])
	if in.objective(n) {
		e.cost.add(charge, shared)
	}
	for _, m := range s.terms {
		e.at(m.Row).add(m.Coef, shared)
	}
	for _, r := range in.paid {
		if in.rows[r].account == s.account && charge != 0 {
			e.at(r).add(charge, shared)
		}
	}
}

func (s *span) add(v int64, shared bool) {
	if shared {
		s.lo, s.hi = s.lo+min(0, v), s.hi+max(0, v)
	} else {
		s.lo, s.hi = s.lo+v, s.hi+v
	}
}

func (e *effect) at(row int) *span {
	i := slices.IndexFunc(e.rows, func(k spanAt) bool { return k.row == row })
	if i < 0 {
		i = len(e.rows)
		e.rows = append(e.rows, spanAt{row: row})
	}
	return &e.rows[i].span
}

// byCost sorts switches, those that save most first.
func (c *chooser) byCost(list []int) []int {
	out := slices.Clone(list)
	slices.SortStableFunc(out, func(a, b int) int { return cmp.Compare(c.effects[a].cost.hi, c.effects[b].cost.hi) })
	return out
}
