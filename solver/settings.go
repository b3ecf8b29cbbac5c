package solver

// settings is the search of one set of switches that are in each other's way,
// depth first, off before on.
type settings struct {
	c     *chooser
	set   []int
	exact bool

	has   bool
	rough bool // the best is a guess: of equal ones the first the search meets is better
	total int64
	on    []int // of the set, in the best setting
}

// greedy turns on what saves most, one after another, as long as the rows allow:
// the search then starts with something in hand.
func (s *settings) greedy() {
	c, t := s.c, s.c.t
	was := len(t.turned)
	for _, h := range c.byCost(s.set) {
		if c.effects[h].cost.lo >= 0 || !c.mayBeOn(h) || t.need[h] > 0 {
			continue
		}
		before := t.total(t.charges())
		t.turn(h)
		if t.total(t.charges()) >= before || s.broken() {
			t.turnBack(len(t.turned) - 1)
		}
	}
	if !s.broken() && !c.missed(s.set) {
		s.keep()
		s.rough = true
	}
	t.turnBack(was)
}

// broken says whether a row that the set has a say in is beyond its limit.
func (s *settings) broken() bool {
	charges := s.c.t.charges()
	for _, r := range s.c.rows {
		if s.c.t.excess(r, charges) > 0 {
			return true
		}
	}
	return false
}

// missed says whether a switch that the domain has on is off.
func (c *chooser) missed(set []int) bool {
	for _, h := range set {
		if c.y != nil && c.y[h] == on && c.t.need[h] == 0 {
			return true
		}
	}
	return false
}

// keep takes the setting as it is now.
func (s *settings) keep() {
	t := s.c.t
	s.has, s.rough, s.total = true, false, t.total(t.charges())
	s.on = s.on[:0]
	for _, h := range s.set {
		if t.vol[h] {
			s.on = append(s.on, h)
		}
	}
}

// walk settles what follows, then the first switch that is still open both ways.
func (s *settings) walk() {
	c, t := s.c, s.c.t
	if c.budget--; c.budget < 0 {
		s.exact = false
		return
	}
	was := len(t.turned)
	list := c.open
	defer func() {
		t.turnBack(was)
		c.open = list
	}()
	if !c.narrow() || s.beaten() {
		return
	}
	if len(c.open) == 0 {
		if !s.broken() {
			s.keep()
		}
		return
	}
	h, rest := c.open[0], c.open[1:]
	if !c.must(h) {
		c.open = rest
		s.walk()
	}
	if c.budget < 0 {
		s.exact = false
		return
	}
	t.turn(h)
	c.open = rest
	s.walk()
}

func (c *chooser) must(h int) bool { return c.y != nil && c.y[h] == on }

// beaten says whether nothing from here on is better than what is in hand.
func (s *settings) beaten() bool {
	if !s.has {
		return false
	}
	v := s.c.t.total(s.c.t.charges()) - s.c.saving()
	return v > s.total || v == s.total && !s.rough
}

// saving is the most that the open switches can still save. Of those in a row
// with room for one of them, only one counts.
func (c *chooser) saving() int64 {
	sum := int64(0)
	most := map[int]int64{}
	for _, h := range c.open {
		v := -min(0, c.effects[h].cost.lo)
		if r := c.only(h); r < 0 {
			sum += v
		} else if v > most[r] {
			sum += v - most[r]
			most[r] = v
		}
	}
	return sum
}

// only is a row in which the switch can be on only if no other open one is; -1 if
// there is none.
func (c *chooser) only(h int) int {
	for _, k := range c.effects[h].rows {
		s, limit := c.row[k.row], c.t.in.rows[k.row].limit
		if k.lo <= 0 || s.hi <= limit {
			continue
		}
		least, second := Limit, Limit // of the coefficients of open switches there
		for _, g := range c.open {
			for _, m := range c.effects[g].rows {
				if m.row != k.row || m.hi <= 0 {
					continue
				}
				v := max(0, m.lo)
				least, second = min(least, v), min(max(least, v), second)
			}
		}
		if second < Limit && s.lo+least+second > limit {
			return k.row
		}
	}
	return -1
}
