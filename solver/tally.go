package solver

// tally keeps the exact sums of one pick while columns are exchanged.
type tally struct {
	in     *instance
	pick   []int // column per group, -1 where none yet
	rows   []int64
	need   []int // per switch, by how many picked columns and voluntary switches it is needed
	load   []int64
	cost   int64
	vol    []bool // voluntary switches that are on
	turned []int  // the same, the latest last
	choice *chooser
	sums   []int64 // see charges

	price   []float64 // per row and unit by which it is exceeded; nil: not of interest
	penalty float64   // what is exceeded comes to, in rows without charges
}

func (in *instance) newTally() *tally {
	t := &tally{
		in: in, pick: make([]int, len(in.groups)), rows: make([]int64, len(in.rows)),
		need: make([]int, len(in.switches)), load: make([]int64, len(in.switches)), vol: make([]bool, len(in.switches)),
		sums: in.byAccount(),
	}
	for g := range t.pick {
		t.pick[g] = -1
	}
	return t
}

// set picks column c in its group, or none with c < 0.
func (t *tally) set(g, c int) {
	if was := t.pick[g]; was >= 0 {
		t.apply(was, -1)
	}
	t.pick[g] = c
	if c >= 0 {
		t.apply(c, 1)
	}
}

func (t *tally) apply(c int, sign int64) {
	k := &t.in.cols[c]
	t.cost += sign * k.cost
	for _, m := range k.terms {
		t.add(m.Row, sign*m.Coef)
	}
	for _, h := range k.needs {
		t.count(h, sign)
	}
	for _, l := range k.loads {
		t.load[l.Switch] += sign * l.Amount
	}
}

// count adds a need of switch h, or takes one away. The terms of a switch are in
// the rows while anything needs it.
func (t *tally) count(h int, sign int64) {
	was := t.need[h] > 0
	t.need[h] += int(sign)
	if was == (t.need[h] > 0) {
		return
	}
	for _, m := range t.in.switches[h].terms {
		t.add(m.Row, sign*m.Coef)
	}
}

// add changes the sum of a row, and what it costs to exceed its limit.
func (t *tally) add(r int, v int64) {
	was := t.rows[r]
	t.rows[r] = was + v
	if t.price != nil && !t.in.rows[r].charges {
		limit := t.in.rows[r].limit
		if over := max(0, was+v-limit) - max(0, was-limit); over != 0 {
			t.penalty += t.price[r] * float64(over)
		}
	}
}

// setPrices puts a price on every unit by which a row is exceeded.
func (t *tally) setPrices(price []float64) {
	t.price, t.penalty = price, 0
	for r := range t.rows {
		if !t.in.rows[r].charges {
			t.penalty += price[r] * float64(t.excess(r, nil))
		}
	}
}

func (t *tally) on(h int) bool { return t.need[h] > 0 }

// charges is, per account, the sum of the charges of switches that are on. It
// holds until the next call.
func (t *tally) charges() []int64 {
	sum := t.sums
	clear(sum)
	for h := range t.in.switches {
		if t.on(h) {
			s := &t.in.switches[h]
			sum[s.account] += s.fixed + max(0, s.minimum-t.load[h])
		}
	}
	return sum
}

func (t *tally) total(charges []int64) int64 {
	if t.in.charged {
		return t.cost + charges[0]
	}
	return t.cost
}

// excess is by how much row r is beyond its limit, 0 if it is not.
func (t *tally) excess(r int, charges []int64) int64 {
	sum := t.rows[r]
	if t.in.rows[r].charges {
		sum += charges[t.in.rows[r].account]
	}
	return max(0, sum-t.in.rows[r].limit)
}

// turn switches a voluntary switch on, with what it needs.
func (t *tally) turn(h int) {
	t.turned = append(t.turned, h)
	t.switchOn(h, true)
}

// turnBack switches the latest ones off again until n are on.
func (t *tally) turnBack(n int) {
	for len(t.turned) > n {
		last := len(t.turned) - 1
		t.switchOn(t.turned[last], false)
		t.turned = t.turned[:last]
	}
}

func (t *tally) switchOn(h int, up bool) {
	sign := int64(1)
	if !up {
		sign = -1
	}
	t.vol[h] = up
	t.count(h, sign)
	for _, k := range t.in.switches[h].needs {
		t.count(k, sign)
	}
}
