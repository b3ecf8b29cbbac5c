package oracle

import (
	"math"

	"brightset/catalog"
)

// Search tries every set of lines of a job, up to about six slots. It leaves a branch only
// where a sum that can but grow is over its limit, or the best so far, already.
type Search struct {
	*Reader
	Best   bool                 // the highest weight x grade first, then the least total
	Refuse func(k []*Line) bool // whole sets that don't count; nil: all do

	Has    bool
	Total  catalog.Cents // less what is kept
	Finish int64         // weight x grade
	Lines  []*Line
	Trades []int

	lines  [][]Line
	picked []*Line
	used   []int
	rest   []rest
	credit catalog.Cents
	limit  int64 // of the completion row
	needed int64 // of the sum of weight x grade
}

// rest is what the slots from one on add: cost, cash and risk at least, finish and each
// plater's work at most.
type rest struct {
	cost, cash   catalog.Cents
	keeps        catalog.Cents // at most
	risk, finish int64
	work         []catalog.Cents
}

// NewSearch prepares the search of a state.
func NewSearch(st *catalog.State) *Search {
	r := Read(st)
	s := &Search{Reader: r, used: make([]int, len(st.Pieces)), limit: math.MaxInt64, needed: math.MinInt64}
	for slot := range st.Slots {
		s.lines = append(s.lines, r.Lines(slot))
	}
	s.bound()
	for _, t := range st.Trades {
		s.credit += t.Credit
	}
	if c := st.Job.Completion; c.Set && c.V > 0 {
		s.limit = CompletionLimit(c.V, len(st.Slots))
	}
	if mean := st.Job.Target.Mean; mean.Set {
		s.needed = 0
		for i := range st.Slots {
			s.needed += int64(st.Slots[i].Weight) * int64(mean.V)
		}
	}
	return s
}

// bound works out what the slots from each on add.
func (s *Search) bound() {
	n := len(s.lines)
	s.rest = make([]rest, n+1)
	s.rest[n].work = make([]catalog.Cents, len(s.st.Platers))
	for i := n - 1; i >= 0; i-- {
		s.rest[i] = s.rest[i+1].plus(s.lines[i])
	}
}

func (r *rest) plus(lines []Line) rest {
	out := rest{r.cost, r.cash, r.keeps, r.risk, r.finish, append([]catalog.Cents(nil), r.work...)}
	if len(lines) == 0 {
		return out
	}
	least := Line{Cost: math.MaxInt64, Risk: math.MaxInt64}
	cash, keeps, most := catalog.Cents(math.MaxInt64), catalog.Cents(0), make([]catalog.Cents, len(r.work))
	for _, l := range lines {
		least.Cost, cash = min(least.Cost, l.Cost), min(cash, l.K.Cash)
		keeps = max(keeps, l.Keeps)
		least.Risk, least.Finish = min(least.Risk, l.Risk), max(least.Finish, l.Finish)
		if l.K.Plater >= 0 {
			most[l.K.Plater] = max(most[l.K.Plater], l.K.Plate)
		}
	}
	out.keeps = r.keeps + keeps
	out.cost, out.cash, out.risk, out.finish = r.cost+least.Cost, r.cash+cash, r.risk+least.Risk, r.finish+least.Finish
	for q := range most {
		out.work[q] += most[q]
	}
	return out
}

// Run looks for the cheapest plan, or the best; s.Has says whether there is one.
func (s *Search) Run() *Search {
	for _, lines := range s.lines {
		if len(lines) == 0 {
			return s
		}
	}
	s.fill()
	return s
}

// fill tries every line of the next slot.
func (s *Search) fill() {
	if len(s.picked) == len(s.lines) {
		s.whole()
		return
	}
	s.each(func() {
		if !s.hopeless() {
			s.fill()
		}
	})
}

// each picks every line of the next slot in turn that goes with those picked.
func (s *Search) each(then func()) {
	at := len(s.picked)
	n := s.st.Slots[at].Quantity
	for i := range s.lines[at] {
		l := &s.lines[at][i]
		if s.take(l.K, n); s.there(l.K) && s.goes(l.K) {
			s.take(l.F, n)
			if s.there(l.F) {
				s.picked = append(s.picked, l)
				then()
				s.picked = s.picked[:at]
			}
			s.take(l.F, -n)
		}
		s.take(l.K, -n)
	}
}

func (s *Search) take(c *Choice, n int) {
	if c != nil {
		s.used[c.Piece] += n
	}
}

func (s *Search) there(c *Choice) bool {
	return c == nil || s.used[c.Piece] <= s.st.Pieces[c.Piece].Quantity
}

// goes says whether a choice may be seen with those picked.
func (s *Search) goes(k *Choice) bool {
	for _, l := range s.picked {
		if !s.match(l.K, k) {
			return false
		}
	}
	return true
}

// keeps is what the lines picked keep.
func (s *Search) keeps() (cents catalog.Cents) {
	for _, l := range s.picked {
		cents += l.Keeps
	}
	return cents
}

// sums adds up the lines picked.
func (s *Search) sums() (cost, cash catalog.Cents, risk, finish int64) {
	for _, l := range s.picked {
		cost, cash, risk, finish = cost+l.Cost, cash+l.K.Cash, risk+l.Risk, finish+l.Finish
	}
	return cost, cash, risk, finish
}

// hopeless says whether no way to fill the open slots can give a better plan.
func (s *Search) hopeless() bool {
	rest := &s.rest[len(s.picked)]
	cost, cash, risk, finish := s.sums()
	if risk+rest.risk > s.limit || finish+rest.finish < s.needed {
		return true
	}
	charges := sum(s.charges(s.callsOf(s.picked, s.used), rest.work)) - s.credit
	cost, cash = cost+rest.cost+charges, cash+rest.cash+charges
	return s.surelyOver(cost, cash) || s.Has && !s.better(finish+rest.finish, cost-s.keeps()-rest.keeps)
}

// better compares by the total less what is kept.
func (s *Search) better(finish int64, total catalog.Cents) bool {
	if s.Best && finish != s.Finish {
		return finish > s.Finish
	}
	return total < s.Total
}

// whole judges a whole set of lines with every set of trades.
func (s *Search) whole() {
	cost, cash, risk, finish := s.sums()
	if risk > s.limit || finish < s.needed || s.Refuse != nil && s.Refuse(s.picked) {
		return
	}
	charges, keeps := sum(s.charges(s.callsOf(s.picked, s.used), nil)), s.keeps()
	for set := range 1 << len(s.st.Trades) {
		trades, credit, ok := s.trades(set, s.picked, s.used)
		total := cost + charges - credit
		if ok && !s.overBudget(total, cash+charges-credit, trades) && (!s.Has || s.better(finish, total-keeps)) {
			s.Has, s.Total, s.Finish, s.Trades = true, total-keeps, finish, trades
			s.Lines = append([]*Line(nil), s.picked...)
		}
	}
}
