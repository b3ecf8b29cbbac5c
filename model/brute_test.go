package model

import (
	"math"

	"brightset/catalog"
)

// brute tries every set of lines. It leaves a branch only where a sum that can
// but grow is over its limit already, so that what it finds is the optimum by
// exhaustion.
type brute struct {
	st     *catalog.State
	byBest bool // highest weight x grade first, then least total
	lines  [][]bruteLine
	picked []*bruteLine
	used   []int
	rest   []bruteRest // by slot: what the slots from there on add at least
	credit catalog.Cents
	limit  int64 // of the completion row

	refuse func([]*bruteLine) bool // whole sets that don't count; nil: all do

	has   bool
	total catalog.Cents
	grade int64
	best  []*bruteLine
	trade []int
}

// bruteRest is what the slots still open add: costs, cash and risk at least,
// grade and each plater's work at most.
type bruteRest struct {
	cost, cash catalog.Cents
	risk       int64
	grade      int64
	work       []catalog.Cents
}

// bruteForce gives the least total of a state, whether any plan meets the
// rules, and a cheapest plan. For jobs of up to six slots.
func bruteForce(st *catalog.State) (best int64, feasible bool, plan *Plan) {
	b := newBrute(st)
	b.search(0)
	if !b.has {
		return 0, false, nil
	}
	return int64(b.total), true, b.plan()
}

// bruteBest gives the highest sum of weight x grade (ten-thousandths) within
// the rules and the least total at that.
func bruteBest(st *catalog.State) (grade, total int64, feasible bool, plan *Plan) {
	b := newBrute(st)
	b.byBest = true
	b.search(0)
	if !b.has {
		return 0, 0, false, nil
	}
	return b.grade, int64(b.total), true, b.plan()
}

func newBrute(st *catalog.State) *brute {
	n := len(st.Slots)
	b := &brute{st: st, lines: make([][]bruteLine, n), used: make([]int, len(st.Pieces)),
		rest: make([]bruteRest, n+1), limit: math.MaxInt64}
	b.rest[n].work = make([]catalog.Cents, len(st.Platers))
	for s := n - 1; s >= 0; s-- {
		b.lines[s] = bruteLines(st, s)
		b.rest[s] = b.rest[s+1].plus(b.lines[s])
	}
	for _, t := range st.Trades {
		b.credit += t.Credit
	}
	if c := st.Job.Completion; c.Set && c.V > 0 {
		b.limit = judgeRiskLimit(st, c.V)
	}
	return b
}

// plus adds a slot's extremes to those of the slots after it.
func (r bruteRest) plus(lines []bruteLine) bruteRest {
	out := bruteRest{work: append([]catalog.Cents(nil), r.work...)}
	if len(lines) == 0 {
		return out
	}
	least := bruteRest{cost: math.MaxInt64, cash: math.MaxInt64, risk: math.MaxInt64}
	most := make([]catalog.Cents, len(r.work))
	for _, l := range lines {
		least.cost = min(least.cost, l.cost)
		least.cash = min(least.cash, l.k.Cash)
		least.risk = min(least.risk, l.risk)
		least.grade = max(least.grade, l.grade)
		if l.k.Plater >= 0 && !l.k.Sent {
			most[l.k.Plater] = max(most[l.k.Plater], l.k.Plate)
		}
	}
	out.cost, out.cash, out.risk, out.grade = r.cost+least.cost, r.cash+least.cash, r.risk+least.risk, r.grade+least.grade
	for q := range most {
		out.work[q] += most[q]
	}
	return out
}

// search extends the picked lines by those of slot s.
func (b *brute) search(s int) {
	if s == 0 && b.emptySlot() {
		return
	}
	if s == len(b.lines) {
		b.leaf()
		return
	}
	b.eachLine(s, func() {
		if !b.hopeless(&b.rest[s+1]) {
			b.search(s + 1)
		}
	})
}

// eachLine picks every line of slot s in turn that goes with those picked before.
func (b *brute) eachLine(s int, then func()) {
	n := b.st.Slots[s].Quantity
	for i := range b.lines[s] {
		l := &b.lines[s][i]
		b.used[l.k.Piece] += n
		if l.f != nil {
			b.used[l.f.Piece] += n
		}
		if b.useAllowed(l) && b.matches(l) {
			b.picked = append(b.picked, l)
			then()
			b.picked = b.picked[:s]
		}
		b.used[l.k.Piece] -= n
		if l.f != nil {
			b.used[l.f.Piece] -= n
		}
	}
}

func (b *brute) emptySlot() bool {
	for _, lines := range b.lines {
		if len(lines) == 0 {
			return true
		}
	}
	return false
}

func (b *brute) useAllowed(l *bruteLine) bool {
	return b.used[l.k.Piece] <= b.st.Pieces[l.k.Piece].Quantity &&
		(l.f == nil || b.used[l.f.Piece] <= b.st.Pieces[l.f.Piece].Quantity)
}

// matches says whether a line goes with those picked before.
func (b *brute) matches(l *bruteLine) bool {
	for _, m := range b.st.Matches {
		if !bruteIn(m.Slots, l.k.Slot) {
			continue
		}
		for _, o := range b.picked {
			if bruteIn(m.Slots, o.k.Slot) && !bruteAlike(b.st, &m, l.k, o.k) {
				return false
			}
		}
	}
	return true
}

func bruteAlike(st *catalog.State, m *catalog.Match, a, b *Choice) bool {
	apart := func(x, y catalog.Centi, within catalog.Val[catalog.Centi]) bool {
		return within.Set && (x-y > within.V || y-x > within.V)
	}
	if apart(a.Grade, b.Grade, m.GradeWithin) || apart(a.Tone, b.Tone, m.ToneWithin) {
		return false
	}
	if x, y := brutePlaterOf(st, a), brutePlaterOf(st, b); m.SamePlater && x >= 0 && y >= 0 && x != y {
		return false
	}
	return !m.FreshAlike || a.Fresh == b.Fresh
}

// brutePlaterOf is the plater whose work hangs: of a piece that came back, his who had it.
func brutePlaterOf(st *catalog.State, c *Choice) int {
	if sent := &st.Pieces[c.Piece].Sent; c.Plater < 0 && sent.Was {
		return sent.Plater // as-is, so it is not with him any more
	}
	return c.Plater
}

// hopeless says whether no way to fill the open slots can give a better plan.
func (b *brute) hopeless(rest *bruteRest) bool {
	cost, cash, risk, grade := rest.cost, rest.cash, rest.risk, rest.grade
	for _, l := range b.picked {
		cost, cash, risk, grade = cost+l.cost, cash+l.k.Cash, risk+l.risk, grade+l.grade
	}
	charges := -b.credit
	for _, c := range bruteCharges(b.st, b.picked, rest.work) {
		charges += c.Cents
	}
	if risk > b.limit || grade < b.meanNeeded() || b.overBudget(cost+charges, cash+charges) {
		return true
	}
	return b.has && !b.better(grade, cost+charges)
}

func (b *brute) better(grade int64, total catalog.Cents) bool {
	if b.byBest && grade != b.grade {
		return grade > b.grade
	}
	return total < b.total
}

func (b *brute) overBudget(expected, outlay catalog.Cents) bool {
	job := &b.st.Job
	if job.BudgetOn == catalog.OnExpected {
		outlay = expected
	}
	return job.Budget.Set && outlay > job.Budget.V
}

// meanNeeded is the sum of weight x grade that the mean asks for.
func (b *brute) meanNeeded() int64 {
	mean := b.st.Job.Target.Mean
	if !mean.Set {
		return math.MinInt64
	}
	sum := int64(0)
	for _, s := range b.st.Slots {
		sum += int64(s.Weight) * int64(mean.V)
	}
	return sum
}

// leaf tries every set of trades for a whole set of lines.
func (b *brute) leaf() {
	cost, cash, risk, grade := catalog.Cents(0), catalog.Cents(0), int64(0), int64(0)
	for _, l := range b.picked {
		cost, cash, risk, grade = cost+l.cost, cash+l.k.Cash, risk+l.risk, grade+l.grade
	}
	if risk > b.limit || grade < b.meanNeeded() || b.refuse != nil && b.refuse(b.picked) {
		return
	}
	for _, c := range bruteCharges(b.st, b.picked, nil) {
		cost, cash = cost+c.Cents, cash+c.Cents
	}
	for set := range 1 << len(b.st.Trades) {
		trades, credit, ok := b.tradeSet(set)
		if !ok || b.overBudget(cost-credit, cash-credit) || b.has && !b.better(grade, cost-credit) {
			continue
		}
		b.has, b.total, b.grade, b.trade = true, cost-credit, grade, trades
		b.best = append([]*bruteLine(nil), b.picked...)
	}
}

// tradeSet says whether the trades of a bit set can all be made.
func (b *brute) tradeSet(set int) (trades []int, credit catalog.Cents, ok bool) {
	gone, come := map[int]bool{}, map[int]bool{}
	for t, trade := range b.st.Trades {
		if set>>t&1 == 0 {
			continue
		}
		hung := false
		for _, l := range b.picked {
			hung = hung || l.k.Piece == trade.Get
		}
		give := &b.st.Pieces[trade.Give]
		there := !give.Elsewhere && give.Stage != catalog.StageSold && give.Stage != catalog.StageLost && give.Stage != catalog.StageBroken
		if !hung || !there || b.used[trade.Give] > 0 || gone[trade.Give] || come[trade.Get] {
			return nil, 0, false
		}
		gone[trade.Give], come[trade.Get] = true, true
		trades, credit = append(trades, t), credit+trade.Credit
	}
	return trades, credit, true
}

func bruteIn(list []int, v int) bool {
	for _, x := range list {
		if x == v {
			return true
		}
	}
	return false
}
