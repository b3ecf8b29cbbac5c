package solver

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

// mostSettings is how many settings are looked at beside one pick.
const mostSettings = 400

// chooser is one for t; it is used again as long as t is.
func (t *tally) chooser(y []int8, budget int) *chooser {
	in := t.in
	if t.choice == nil {
		t.choice = &chooser{
			t:       t,
			effects: make([]effect, len(in.switches)),
			sharers: make([]int, len(in.switches)),
			row:     make([]span, len(in.rows)),
		}
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
