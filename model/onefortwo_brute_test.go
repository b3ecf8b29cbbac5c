package model

import (
	"context"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"brightset/catalog"
	"brightset/solver"
)

// bruteShared tries every set of lines, and for every line that falls back on a
// contested piece every earlier line it could hold that piece together with. It
// leaves a branch only where no way to go on can give a better plan.
type bruteShared struct {
	*brute
	contested []bool
	with      []int // per slot filled: the slot it shares with, -1 where with none
	yields    []bool
	more      []catalog.Cents // what yielding adds to its line

	bestWith   []int
	bestYields []bool
	bestMore   []catalog.Cents
}

// bruteOneForTwo gives a cheapest plan in which two slots may hold one spare.
func bruteOneForTwo(st *catalog.State) (*Plan, bool) {
	b := &bruteShared{brute: newBrute(st), contested: bruteContested(st)}
	if b.emptySlot() {
		return nil, false
	}
	for s := len(b.lines) - 1; s >= 0; s-- {
		b.lines[s] = b.fewer(b.lines[s])
		b.rest[s] = b.rest[s+1].plus(b.lines[s])
		least := catalog.Cents(math.MaxInt64)
		for _, l := range b.lines[s] { // one that yields pays a share of a rescue in place of its spare
			least = min(least, l.cost, judgeExpected(st, l.k, nil)) - 1
		}
		b.rest[s].cost = b.rest[s+1].cost + least
	}
	b.extend(0, 0, 0)
	if !b.has {
		return nil, false
	}
	return b.plan(), true
}

// fewer leaves out lines that another with the very same pieces, plater, grade, tone
// and freshness beats outright: they differ in the fallback's work alone, and that
// piece is one nobody else wants.
func (b *bruteShared) fewer(lines []bruteLine) []bruteLine {
	var kept []bruteLine
	for _, l := range lines { // the cheapest first
		beaten := false
		for i := range kept {
			o := &kept[i]
			if o.k == l.k && l.f != nil && o.f != nil && o.f.Piece == l.f.Piece && !b.contested[l.f.Piece] && o.risk <= l.risk {
				beaten = true
			}
		}
		if !beaten {
			kept = append(kept, l)
		}
	}
	return kept
}

// bruteContested says of every piece whether the slots it may hang in or be held for
// need more of it than there are.
func bruteContested(st *catalog.State) []bool {
	wanted := make([]int, len(st.Pieces))
	for s := range st.Slots {
		for p := range st.Pieces {
			for _, c := range bruteChoices(st, s) {
				if c.Piece == p && (bruteChosenMay(st, c) || bruteReserveMay(st, c)) {
					wanted[p] += st.Slots[s].Quantity
					break
				}
			}
		}
	}
	out := make([]bool, len(st.Pieces))
	for p := range st.Pieces {
		out[p] = wanted[p] > st.Pieces[p].Quantity
	}
	return out
}

// extend adds the lines of slot s; cost and risk are those of the lines so far.
func (b *bruteShared) extend(s int, cost catalog.Cents, risk int64) {
	if s == len(b.lines) {
		b.whole(cost, risk)
		return
	}
	n := b.st.Slots[s].Quantity
	for i := range b.lines[s] {
		l := &b.lines[s][i]
		b.used[l.k.Piece] += n
		if b.used[l.k.Piece] <= b.st.Pieces[l.k.Piece].Quantity && b.matches(l) {
			b.picked = append(b.picked, l)
			b.alone(s, l, cost, risk)
			if l.f != nil && b.contested[l.f.Piece] {
				for o := range s {
					b.together(s, o, cost, risk)
				}
			}
			b.picked = b.picked[:s]
		}
		b.used[l.k.Piece] -= n
	}
}

// alone holds the fallback of slot s for itself.
func (b *bruteShared) alone(s int, l *bruteLine, cost catalog.Cents, risk int64) {
	n := b.st.Slots[s].Quantity
	if l.f != nil {
		b.used[l.f.Piece] += n
		defer func() { b.used[l.f.Piece] -= n }()
		if b.used[l.f.Piece] > b.st.Pieces[l.f.Piece].Quantity {
			return
		}
	}
	b.with, b.yields, b.more = append(b.with[:s:s], -1), append(b.yields[:s:s], false), append(b.more[:s:s], 0)
	b.goOn(s+1, cost+l.cost, risk+l.risk)
}

// together holds one piece for slots s and o, as both fall back on it, with either of
// them yielding.
func (b *bruteShared) together(s, o int, cost catalog.Cents, risk int64) {
	l, m := b.picked[s], b.picked[o]
	if b.with[o] >= 0 || m.f == nil || m.f.Piece != l.f.Piece {
		return
	}
	extra := max(0, b.st.Slots[s].Quantity-b.st.Slots[o].Quantity)
	both, ok := bruteBothRisk(m, l)
	b.used[l.f.Piece] += extra
	defer func() { b.used[l.f.Piece] -= extra }()
	if !ok || b.used[l.f.Piece] > b.st.Pieces[l.f.Piece].Quantity {
		return
	}
	with, yields, more := b.with, b.yields, b.more
	for _, who := range []int{o, s} {
		loser, other := b.picked[who], b.picked[o+s-who]
		if !bruteInTime(b.st, loser.k, nil) {
			continue
		}
		b.with = append(append([]int(nil), with[:s]...), o)
		b.yields = append(append([]bool(nil), yields[:s]...), false)
		b.more = append(append([]catalog.Cents(nil), more[:s]...), 0)
		b.with[o], b.yields[who], b.more[who] = s, true, bruteYielding(b.st, loser, other)
		b.goOn(s+1, cost+l.cost+b.more[who], risk-m.risk+both)
	}
	b.with, b.yields, b.more = with, yields, more
}

// goOn fills the next slot unless it is hopeless: the pair's part of the completion row
// is at most two below that of its lines alone, for rounding.
func (b *bruteShared) goOn(s int, cost catalog.Cents, risk int64) {
	rest := &b.rest[s]
	low, cash, grade := cost+rest.cost, rest.cash, rest.grade
	for _, l := range b.picked {
		cash, grade = cash+l.k.Cash, grade+l.grade
	}
	charges := -b.credit
	for _, c := range bruteCharges(b.st, b.picked, rest.work) {
		charges += c.Cents
	}
	slack := int64(2 * len(b.lines))
	if risk+rest.risk-slack > b.limit || grade < b.meanNeeded() || b.overBudget(b.openCost(low)+charges, cash+charges) || b.has && b.openCost(low)+charges >= b.total {
		return
	}
	b.extend(s, cost, risk)
}

// openCost lowers a bound by what lines so far may still save by yielding to one to
// come.
func (b *bruteShared) openCost(low catalog.Cents) catalog.Cents {
	for i, l := range b.picked {
		if b.with[i] < 0 && l.f != nil {
			low -= max(0, l.cost-judgeExpected(b.st, l.k, nil)) + 1
		}
	}
	return low
}

// whole judges a whole set of lines with every set of trades.
func (b *bruteShared) whole(cost catalog.Cents, risk int64) {
	cash, grade := catalog.Cents(0), int64(0)
	for _, l := range b.picked {
		cash, grade = cash+l.k.Cash, grade+l.grade
	}
	if risk > b.limit || grade < b.meanNeeded() {
		return
	}
	for _, c := range bruteCharges(b.st, b.picked, nil) {
		cost, cash = cost+c.Cents, cash+c.Cents
	}
	for set := range 1 << len(b.st.Trades) {
		trades, credit, ok := b.tradeSet(set)
		if !ok || b.overBudget(cost-credit, cash-credit) || b.has && cost-credit >= b.total {
			continue
		}
		b.has, b.total, b.trade = true, cost-credit, trades
		b.best = append([]*bruteLine(nil), b.picked...)
		b.bestWith = append([]int(nil), b.with...)
		b.bestYields = append([]bool(nil), b.yields...)
		b.bestMore = append([]catalog.Cents(nil), b.more...)
	}
}

// plan writes the best set as a plan.
func (b *bruteShared) plan() *Plan {
	p := b.brute.plan()
	for s := range p.Lines {
		if b.bestWith[s] < 0 {
			continue
		}
		p.Lines[s].Sharing = &Sharing{With: b.bestWith[s], Yields: b.bestYields[s]}
		p.Lines[s].Expected += b.bestMore[s]
		p.Expected += b.bestMore[s]
		if s < b.bestWith[s] {
			l, m := b.best[s], b.best[b.bestWith[s]]
			p.Completion *= bruteNoRescue(l, m) / (1 - judgeRisk(l.k, l.f)) / (1 - judgeRisk(m.k, m.f))
		}
	}
	p.Bound = p.Expected
	return p
}

// bruteYielding is (P P')(R - standin), half up, of a line that yields.
func bruteYielding(st *catalog.State, loser, other *bruteLine) catalog.Cents {
	standin := Standin(st, loser.f)
	x := int64(catalog.Both(loser.k.Fails, other.k.Fails))*int64(st.Slots[loser.k.Slot].Rescue.V-standin) + 500_000
	q := x / 1_000_000
	if x%1_000_000 < 0 {
		q--
	}
	return catalog.Cents(q)
}

// bruteGood is the chance, in 1e-18, that neither of two lines with one spare needs a
// rescue: none fails, or one does and the spare holds.
func bruteGood(l, m *bruteLine) int64 {
	const one = 1_000_000
	p, q := int64(l.k.Fails), int64(m.k.Fails)
	return (one-p)*(one-q)*one + p*(one-q)*(one-int64(l.f.Fails)) + q*(one-p)*(one-int64(m.f.Fails))
}

func bruteNoRescue(l, m *bruteLine) float64 { return float64(bruteGood(l, m)) / 1e18 }

// bruteBothRisk is their part of the completion row; false where a rescue is certain.
func bruteBothRisk(l, m *bruteLine) (int64, bool) {
	good := bruteGood(l, m)
	bad := float64(int64(1e18)-good) / 1e18
	return int64(math.Round(-1e6 * math.Log1p(-bad))), good > 0
}

// TestOneForTwoRandom compares random jobs with the exhaustive search.
func TestOneForTwoRandom(t *testing.T) {
	jobs, shared, cheaper, only := 0, 0, 0, 0
	for slots := 2; slots <= 4; slots++ {
		for seed := range int64(130 - 25*slots) {
			t.Run(randomName(seed, slots, "one-for-two"), func(t *testing.T) {
				st := scarceState(seed, slots)
				plan, saved, new := compareOneForTwo(t, st)
				jobs++
				if new {
					only++
				}
				if saved {
					cheaper++
				}
				if !plan.Has || countShared(plan) == 0 {
					return
				}
				shared++
				// asked for just what sharing gives, or just what it costs
				st.Job.Completion = randomSet(catalog.Micro(plan.Completion * 1e6))
				if _, _, new := compareOneForTwo(t, st); new {
					only++
				}
				st.Job.Completion = catalog.Val[catalog.Micro]{}
				st.Job.Budget, st.Job.BudgetOn = randomSet(plan.Expected), catalog.OnExpected
				if _, _, new := compareOneForTwo(t, st); new {
					only++
				}
			})
		}
	}
	t.Logf("of %d jobs %d share a spare, %d are cheaper by it; %d tasks are possible only so", jobs, shared, cheaper, only)
	if shared < 10 || cheaper < 10 || only < 1 {
		t.Errorf("too few: %d share, %d are cheaper, %d possible only so", shared, cheaper, only)
	}
}

// scarceState is a random job in which choices fail more often, pieces fit more slots
// and rescues are dear or cheap, so that spares are worth sharing.
func scarceState(seed int64, slots int) *catalog.State {
	opt := randomOptions{On: []string{"shared"}}
	if seed%2 == 0 {
		opt.On = append(opt.On, "completion")
	}
	st := randomState(seed, slots, opt)
	r := rand.New(rand.NewPCG(uint64(seed), 42))
	for i := range st.Pieces {
		p := &st.Pieces[i]
		if s := r.IntN(slots); randomChance(r, 50) && p.Fit == nil && !slices.Contains(p.Fits, s) {
			p.Fits = append(p.Fits, s)
		}
		if randomChance(r, 60) {
			p.Chance = randomFrom[catalog.Micro](r, 500_000, 999_999)
		}
	}
	for s := range st.Slots {
		if randomChance(r, 60) {
			st.Slots[s].Rescue = randomSet(randomFrom[catalog.Cents](r, 50_00, 2500_00))
		}
	}
	if st.Job.Completion.Set {
		st.Job.Completion.V = randomFrom[catalog.Micro](r, 300_000, 950_000)
	}
	return st
}

func countShared(p *Plan) int {
	n := 0
	for _, l := range p.Lines {
		if l.Sharing != nil {
			n++
		}
	}
	return n
}

// compareOneForTwo demands the answer of the exhaustive search, with every line in and
// without the needless ones, and says whether sharing saves anything and whether it
// alone makes a plan possible.
func compareOneForTwo(t *testing.T, st *catalog.State) (plan *Plan, saved, only bool) {
	t.Helper()
	best, feasible := bruteOneForTwo(st)
	if feasible {
		for _, v := range Check(st, best) {
			t.Errorf("exhaustive: %v", v)
		}
	}
	for _, opt := range []Options{{OneForTwo: true, AllLines: true}, {OneForTwo: true, FixedLimits: true}} {
		var err error
		if plan, err = Compile(st, opt).Solve(context.Background(), solver.Change{}, solver.Settings{}); err != nil {
			t.Fatalf("solve: %v", err)
		}
		if plan.Has != feasible {
			t.Fatalf("in hand %t, want %t", plan.Has, feasible)
		}
		if feasible && plan.Expected != best.Expected {
			t.Errorf("all lines %t: total %d, want %d", opt.AllLines, plan.Expected, best.Expected)
			bruteLogPlan(t, "solve", st, plan)
			bruteLogPlan(t, "exhaustive", st, best)
		}
	}
	single := compareRoughCells(t, st, best)
	if single.Has && (!feasible || single.Expected < best.Expected) {
		t.Errorf("holding spares for one slot costs %d, holding them for two more", single.Expected)
	}
	return plan, single.Has && feasible && best.Expected < single.Expected, feasible && !single.Has
}

// compareRoughCells demands the same of the search that begins with all classes of a
// side in one cell, and gives the plan that holds every spare for one slot.
func compareRoughCells(t *testing.T, st *catalog.State, best *Plan) *Plan {
	t.Helper()
	two, one, err := oneForTwoAgainstOne(context.Background(), st, solver.Settings{}, 1)
	if err != nil {
		t.Fatal(err)
	}
	if two.Has != (best != nil) || two.Has && (two.Expected != best.Expected || two.Status != solver.Optimal) {
		t.Errorf("rough cells: %s, in hand %t, total %d", two.Status, two.Has, two.Expected)
	}
	for _, v := range Check(st, two) {
		t.Error(v)
	}
	return one
}
