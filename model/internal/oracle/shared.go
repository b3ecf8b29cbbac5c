package oracle

import (
	"math"
	"math/big"

	"brightset/catalog"
)

// One spare for two slots, on request. Both hold one piece; the one that has the first call
// pays as if it were its own. The other yields: where both fail it is rescued, which costs
// it (P P')(R - fallback) more, and keeps (P P') keeps(fallback) less. One of them needs a
// rescue unless none fails, or one does and the spare holds. Only one for which a rescue would be in time may yield.

// Shared is the search with spares that two slots may hold.
type Shared struct {
	*Search
	With   []int // by slot: the slot it shares with, None where with none
	Yields []bool
	More   []catalog.Cents // what yielding adds to its line
	Less   []catalog.Cents // what its line keeps less

	contested []bool
	with      []int
	yields    []bool
	more      []catalog.Cents
	less      []catalog.Cents
}

// NewShared looks for the cheapest plan in which two slots may hold one spare.
func NewShared(st *catalog.State) *Shared {
	s := &Shared{Search: NewSearch(st)}
	s.contested = s.scarce()
	for i := range s.lines {
		if len(s.lines[i]) == 0 {
			return s
		}
		s.lines[i] = s.fewer(s.lines[i])
	}
	s.bound()
	// one that yields pays a share of a rescue in place of its spare
	open := catalog.Cents(0)
	for i := len(s.lines) - 1; i >= 0; i-- {
		least := catalog.Cents(math.MaxInt64)
		for _, l := range s.lines[i] {
			least = min(least, l.Cost, s.Expected(l.K, nil)-1)
		}
		open += least - 1
		s.rest[i].cost = open
	}
	s.extend(0, 0, 0)
	return s
}

// scarce says of every piece whether the slots it may hang in or be held for need more of
// it than there are.
func (s *Shared) scarce() []bool {
	wanted := make([]int, len(s.st.Pieces))
	for slot := range s.st.Slots {
		seen := map[int]bool{}
		for _, c := range s.Choices(slot) {
			if !seen[c.Piece] && (s.MayHang(c) || s.MayWait(c)) {
				seen[c.Piece] = true
				wanted[c.Piece] += s.st.Slots[slot].Quantity
			}
		}
	}
	out := make([]bool, len(wanted))
	for p, n := range wanted {
		out[p] = n > s.st.Pieces[p].Quantity
	}
	return out
}

// fewer leaves out lines that differ from a cheaper one in the work on the fallback alone,
// of a piece that nobody else wants.
func (s *Shared) fewer(lines []Line) (kept []Line) {
	for _, l := range lines {
		beaten := false
		for i := range kept {
			o := &kept[i]
			beaten = beaten || o.K == l.K && l.F != nil && o.F != nil && o.F.Piece == l.F.Piece &&
				!s.contested[l.F.Piece] && o.Risk <= l.Risk && o.Cost <= l.Cost
		}
		if !beaten {
			kept = append(kept, l)
		}
	}
	return kept
}

// extend fills the next slot; cost, keeps and risk are those of the slots before.
func (s *Shared) extend(cost, keeps catalog.Cents, risk int64) {
	at := len(s.picked)
	if at == len(s.lines) {
		s.judge(cost, keeps, risk)
		return
	}
	n := s.st.Slots[at].Quantity
	for i := range s.lines[at] {
		l := &s.lines[at][i]
		if s.take(l.K, n); s.there(l.K) && s.goes(l.K) {
			s.picked = append(s.picked, l)
			s.alone(l, cost, keeps, risk)
			if l.F != nil && s.contested[l.F.Piece] {
				for o := range at {
					s.together(at, o, cost, keeps, risk)
				}
			}
			s.picked = s.picked[:at]
		}
		s.take(l.K, -n)
	}
}

// alone holds the fallback of the last line for itself.
func (s *Shared) alone(l *Line, cost, keeps catalog.Cents, risk int64) {
	at := len(s.picked) - 1
	n := s.st.Slots[at].Quantity
	if s.take(l.F, n); s.there(l.F) {
		s.with, s.yields, s.more = append(s.with[:at:at], nothing), append(s.yields[:at:at], false),
			append(s.more[:at:at], 0)
		s.less = append(s.less[:at:at], 0)
		s.goOn(cost+l.Cost, keeps+l.Keeps, risk+l.Risk)
	}
	s.take(l.F, -n)
}

// together holds one piece for slots at and o, as both fall back on it, with either of them
// yielding.
func (s *Shared) together(at, o int, cost, keeps catalog.Cents, risk int64) {
	l, m := s.picked[at], s.picked[o]
	if s.with[o] >= 0 || m.F == nil || m.F.Piece != l.F.Piece {
		return
	}
	fine := neither(m, l)
	if fine.Sign() == 0 {
		return
	}
	both := nearest(millionLn(fine, big.NewInt(million*million*million)))
	extra := max(0, s.st.Slots[at].Quantity-s.st.Slots[o].Quantity)
	if s.take(l.F, extra); s.there(l.F) {
		with, yields, more, less := s.with, s.yields, s.more, s.less
		for _, who := range []int{o, at} {
			loser, other := s.picked[who], s.picked[o+at-who]
			if !s.inTime(loser.K, nil) {
				continue
			}
			s.with = append(append([]int(nil), with[:at]...), o)
			s.yields = append(append([]bool(nil), yields[:at]...), false)
			s.more = append(append([]catalog.Cents(nil), more[:at]...), 0)
			s.less = append(append([]catalog.Cents(nil), less[:at]...), 0)
			s.with[o], s.yields[who], s.more[who] = at, true, s.yielding(loser, other)
			s.less[who] = part(part(loser.K.Fails, other.K.Fails), loser.F.Keeps)
			s.goOn(cost+l.Cost+s.more[who], keeps+l.Keeps-s.less[who], risk-m.Risk+both)
		}
		s.with, s.yields, s.more, s.less = with, yields, more, less
	}
	s.take(l.F, -extra)
}

// goOn fills the next slot unless that is hopeless: the pair's part of the completion row is
// at most two below that of its lines alone, for rounding.
func (s *Shared) goOn(cost, keeps catalog.Cents, risk int64) {
	rest := &s.rest[len(s.picked)]
	_, cash, _, finish := s.sums()
	charges := sum(s.charges(s.callsOf(s.picked, s.used), rest.work)) - s.credit
	low := s.open(cost+rest.cost) + charges
	if risk+rest.risk-int64(2*len(s.lines)) > s.limit || finish+rest.finish < s.needed ||
		s.surelyOver(low, cash+rest.cash+charges) || s.Has && low-keeps-rest.keeps >= s.Total {
		return
	}
	s.extend(cost, keeps, risk)
}

// open lowers a bound by what the lines so far may save by yielding to one to come.
func (s *Shared) open(low catalog.Cents) catalog.Cents {
	for i, l := range s.picked {
		if s.with[i] < 0 && l.F != nil {
			low -= max(0, l.Cost-s.Expected(l.K, nil)) + 2
		}
	}
	return low
}

// judge judges a whole set of lines with every set of trades.
func (s *Shared) judge(cost, keeps catalog.Cents, risk int64) {
	_, cash, _, finish := s.sums()
	if risk > s.limit || finish < s.needed {
		return
	}
	charges := sum(s.charges(s.callsOf(s.picked, s.used), nil))
	for set := range 1 << len(s.st.Trades) {
		trades, credit, ok := s.trades(set, s.picked, s.used)
		total := cost + charges - credit
		if !ok || s.overBudget(total, cash+charges-credit, trades) || s.Has && total-keeps >= s.Total {
			continue
		}
		s.Has, s.Total, s.Finish, s.Trades = true, total-keeps, finish, trades
		s.Lines = append([]*Line(nil), s.picked...)
		s.With, s.Yields, s.More = append([]int(nil), s.with...), append([]bool(nil), s.yields...),
			append([]catalog.Cents(nil), s.more...)
		s.Less = append([]catalog.Cents(nil), s.less...)
	}
}

// yielding is (P P')(R - fallback), which may be below nothing.
func (s *Shared) yielding(loser, other *Line) catalog.Cents {
	return part(part(loser.K.Fails, other.K.Fails), s.rescue(loser.K)-s.FallbackCost(loser.F))
}

// neither is the chance, in 1e-18, that neither of two lines with one spare needs a rescue.
func neither(l, m *Line) *big.Int {
	product := func(a, b, c catalog.Micro) *big.Int {
		x := big.NewInt(int64(a))
		return x.Mul(x, big.NewInt(int64(b))).Mul(x, big.NewInt(int64(c)))
	}
	p, q := l.K.Fails, m.K.Fails
	sum := product(million-p, million-q, million)
	sum.Add(sum, product(p, million-q, million-l.F.Fails))
	return sum.Add(sum, product(million-p, q, million-m.F.Fails))
}

// SharedCompletion is the chance that no slot needs a rescue, with spares shared as said.
func SharedCompletion(lines []*Line, with []int) float64 {
	chance := 1.0
	for i, l := range lines {
		switch {
		case with[i] < 0:
			chance *= Completion([]*Line{l})
		case with[i] > i:
			chance *= NoRescue(l, lines[with[i]])
		}
	}
	return chance
}

// NoRescue is the chance that neither of two lines with one spare needs a rescue.
func NoRescue(l, m *Line) float64 {
	x, _ := new(big.Float).SetInt(neither(l, m)).Float64()
	return x / (million * million * million)
}
