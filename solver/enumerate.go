package solver

import (
	"math"
	"sort"
)

// enumerator goes through the picks of a domain depth first, cutting off by the
// Lagrangian bound and by the rows. It costs about a microsecond per pick, so it
// finishes what the linear programs have made small.
type enumerator struct {
	in    *instance
	d     *domain
	b     *bound
	delta []float64
	best  *incumbent
	other int64 // totals from here on are of no interest
	limit int   // picks it may still look at

	t     *tally
	order []int     // groups
	lists [][]int   // per place in order, columns by rising delta
	rest  [][]int64 // per place, the least that it and later groups add to each row
	sum   []int64   // per row, what is sure so far
	stop  func() bool
	block []blockState
}

// blockState is what a larger block has cost so far.
type blockState struct {
	rc    float64 // sum of reduced costs of its picked columns
	open  float64 // sum of the least reduced costs of its groups without a pick
	floor float64 // highest delta of a picked column
	added float64 // what of it is in the bound already
}

// enumerate looks at all picks of d that may be better than, or as good as, what is in hand. It
// says whether it got through within limit picks.
func (in *instance) enumerate(d *domain, b *bound, best *incumbent, other int64, limit int, stop func() bool) bool {
	e := &enumerator{
		in: in, d: d, b: b, delta: in.deltas(d, b), best: best, other: other, limit: limit, stop: stop, t: in.newTally(),
	}
	e.prepare()
	return e.walk(0, b.value-b.err)
}

func (e *enumerator) gap(value float64) float64 {
	return float64(e.best.reach(e.other)-1) - value + 2*e.b.err
}

func (e *enumerator) prepare() {
	in := e.in
	gap := e.gap(e.b.value)
	lists := make([][]int, len(in.groups))
	for g, span := range in.groups {
		for c := in.first(e.d, g); c < span[1]; c = e.d.alive.next(c+1, span[1]) {
			if e.delta[c] <= gap {
				lists[g] = append(lists[g], c)
			}
		}
		list := lists[g]
		sort.SliceStable(list, func(i, j int) bool { return e.delta[list[i]] < e.delta[list[j]] })
	}
	e.orderGroups(lists)
	e.sum = in.leastSwitches(e.d)
	e.rest = make([][]int64, len(e.order)+1)
	e.rest[len(e.order)] = make([]int64, len(in.rows))
	for i := len(e.order) - 1; i >= 0; i-- {
		e.rest[i] = append([]int64(nil), e.rest[i+1]...)
		in.addLeast(e.rest[i], e.lists[i])
	}
	e.block = make([]blockState, len(in.blocks))
	for i := range in.blocks {
		for _, g := range in.blocks[i].groups {
			e.block[i].open += e.b.least[g]
		}
	}
}

// orderGroups puts blocks with fewer columns first: what is nearly settled
// narrows the rows for the rest.
func (e *enumerator) orderGroups(lists [][]int) {
	in := e.in
	size := make([]int, len(in.blocks))
	order := make([]int, len(in.blocks))
	for i := range in.blocks {
		order[i] = i
		for _, g := range in.blocks[i].groups {
			size[i] += len(lists[g]) - 1
		}
	}
	sort.SliceStable(order, func(i, j int) bool { return size[order[i]] < size[order[j]] })
	for _, i := range order {
		for _, g := range in.blocks[i].groups {
			e.order = append(e.order, g)
			e.lists = append(e.lists, lists[g])
		}
	}
}

// addLeast adds to each row the least coefficient among a group's columns.
func (in *instance) addLeast(rows []int64, list []int) {
	if len(list) == 0 {
		return
	}
	least := make(map[int]int64, 8)
	count := make(map[int]int, 8)
	for _, c := range list {
		for _, t := range in.cols[c].terms {
			if v, ok := least[t.Row]; !ok || t.Coef < v {
				least[t.Row] = t.Coef
			}
			count[t.Row]++
		}
	}
	for r, v := range least {
		if count[r] < len(list) {
			v = min(v, 0)
		}
		rows[r] += v
	}
}

// walk picks a column for the group at place i of the order.
func (e *enumerator) walk(i int, value float64) bool {
	if i == len(e.order) {
		_, exact, used := e.best.offerWithin(e.t, e.d.y, min(mostSettings, e.limit))
		e.limit -= used
		return exact
	}
	g := e.order[i]
	for _, c := range e.lists[i] {
		if e.delta[c] > e.gap(e.b.value) {
			return true // the list is sorted: none after this one either
		}
		if e.limit--; e.limit < 0 || (e.limit&1023 == 0 && e.stop()) {
			return false
		}
		state := e.block[e.in.blockOf[g]]
		v := value + e.step(g, c)
		if v-e.b.err <= float64(e.best.reach(e.other)-1) && e.enter(i, g, c) {
			if !e.walk(i+1, v) {
				e.leave(g, c)
				e.block[e.in.blockOf[g]] = state
				return false
			}
			e.leave(g, c)
		}
		e.block[e.in.blockOf[g]] = state
	}
	return true
}

// step is how much the bound rises with column c.
func (e *enumerator) step(g, c int) float64 {
	rise := 0.0
	for _, h := range e.in.cols[c].needs {
		if e.d.y[h] == open && e.t.need[h] == 0 && e.b.s[h] > 0 {
			rise += e.b.s[h]
		}
	}
	i := e.in.blockOf[g]
	if e.in.blocks[i].single() {
		return rise + e.delta[c]
	}
	s := &e.block[i]
	s.rc += e.b.rc[c]
	s.open -= e.b.least[g]
	s.floor = math.Max(s.floor, e.delta[c])
	should := math.Max(s.floor, s.rc+s.open-e.b.block[i])
	rise += math.Max(0, should-s.added)
	s.added = math.Max(s.added, should)
	return rise
}

// enter picks c if no row and no rule is then sure to be broken.
func (e *enumerator) enter(i, g, c int) bool {
	in := e.in
	e.addRows(c, 1)
	e.t.set(g, c)
	for r := range in.rows {
		if e.sum[r]+e.rest[i+1][r] > in.rows[r].limit {
			e.leave(g, c)
			return false
		}
	}
	if len(in.blocks[in.blockOf[g]].groups) > 1 && !in.rulesHold(e.t.pick) {
		e.leave(g, c)
		return false
	}
	return true
}

func (e *enumerator) leave(g, c int) {
	e.t.set(g, -1)
	e.addRows(c, -1)
}

// addRows keeps, beside the columns' own terms, the fixed charges and terms of
// open switches that c is the first to need (called before c is picked and
// after it is dropped).
func (e *enumerator) addRows(c int, sign int64) {
	k := &e.in.cols[c]
	for _, t := range k.terms {
		e.sum[t.Row] += sign * t.Coef
	}
	for _, h := range k.needs {
		if e.d.y[h] != open || e.t.need[h] > 0 {
			continue
		}
		s := &e.in.switches[h]
		for _, t := range s.terms {
			e.sum[t.Row] += sign * max(0, t.Coef)
		}
		if s.fixed > 0 {
			for r := range e.in.rows {
				if e.in.pays(r, h) {
					e.sum[r] += sign * s.fixed
				}
			}
		}
	}
}
