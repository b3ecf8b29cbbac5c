package risk

import (
	"cmp"
	"context"
	"math/rand/v2"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
	"brightset/model/program"
)

// Simulation is a plan carried out many times over, with estimates off as well:
// the work of one plater is off by one factor in a run, since he misjudges alike.
type Simulation struct {
	Asked  int             // runs
	Runs   int             // done: fewer than asked for where time was up; with none the rest is empty
	Cash   []catalog.Cents // per run, ascending; as the plan has it
	Replan []catalog.Cents // per run, ascending; with the best left over after each failure
	Total  float64         // mean of what the plan minimises, prices as planned, in cents
	Grade  float64         // mean of the mean grade, with the fallbacks held
}

// Whole says whether all runs asked for were done.
func (s *Simulation) Whole() bool { return s.Runs == s.Asked }

// Quantile is the sum that a share q of ascending runs does not exceed. There has to be
// a run.
func Quantile(runs []catalog.Cents, q float64) catalog.Cents {
	return runs[min(len(runs)-1, int(q*float64(len(runs))))]
}

// Simulate carries a plan out a number of times; fewer where the context ends. The same
// seed gives the same runs, of which fewer are the first.
func Simulate(ctx context.Context, plan *plan.Plan, runs int, seed uint64) *Simulation {
	out := &Simulation{Asked: runs}
	if ctx.Err() != nil {
		return out
	}
	s := &simulator{st: plan.Of, plan: plan, r: rand.New(rand.NewPCG(seed, 0xb51)), spare: spares(plan),
		weights: meanWeights(plan.Of)}
	for ; out.Runs < runs && ctx.Err() == nil; out.Runs++ {
		s.factors()
		s.grade = 0
		cash, again, total := s.run()
		out.Cash, out.Replan = append(out.Cash, cash), append(out.Replan, again)
		out.Total += float64(total) / float64(runs)
		out.Grade += s.grade / float64(runs)
	}
	if 0 < out.Runs && out.Runs < runs { // the means are of those that were done
		out.Total *= float64(runs) / float64(out.Runs)
		out.Grade *= float64(runs) / float64(out.Runs)
	}
	slices.Sort(out.Cash)
	slices.Sort(out.Replan)
	return out
}

// meanWeights is, per slot, what share of the mean grade is its own.
func meanWeights(st *catalog.State) []float64 {
	sum, all := int64(0), make([]float64, len(st.Slots))
	for s := range st.Slots {
		sum += weightOf(st, s)
	}
	for s := range all {
		all[s] = float64(weightOf(st, s)) / float64(sum)
	}
	return all
}

type simulator struct {
	st     *catalog.State
	plan   *plan.Plan
	r      *rand.Rand
	spare  [][]plan.Choice // per line, what may stand in, the cheapest first
	plater []float64       // by what part of their span they are off in this run, -1..1
	other  float64
	grade  float64 // mean of the set in this run

	weights []float64 // per slot, its share of the mean
}

// spares are the choices admitted in reserve whose pieces the plan does not hang.
func spares(pl *plan.Plan) [][]plan.Choice {
	hung := map[int]int{}
	for i := range pl.Lines {
		hung[pl.Lines[i].Choice.Piece] += choice.Needed(pl.SlotOf(&pl.Lines[i]))
	}
	choices := choice.Choices(pl.Of)
	out := make([][]plan.Choice, len(pl.Lines))
	for i := range pl.Lines {
		slot := pl.Lines[i].Slot
		for k := range choices[slot] {
			c := &choices[slot][k]
			if hung[c.Piece]+choice.Needed(&pl.Of.Slots[slot]) <= choice.PieceCount(pl.PieceOf(c)) &&
				program.Admitted(pl.Of, c, program.Reserve) {
				out[i] = append(out[i], *c)
			}
		}
		slices.SortStableFunc(out[i], func(a, b plan.Choice) int {
			return cmp.Compare(choice.FallbackCost(pl.Of, &a)-a.Keeps, choice.FallbackCost(pl.Of, &b)-b.Keeps)
		})
	}
	return out
}

// factors draws by how much every plater, and all others, are off in this run.
func (s *simulator) factors() {
	draw := func(spread catalog.Spread) float64 {
		low, high := share(spread.Low.V), share(spread.High.V)
		if low+high == 0 {
			return 0
		}
		return part(distuv.NewTriangle(-low, high, 0, s.r).Rand(), low, high)
	}
	s.plater = s.plater[:0]
	for q := range s.st.Platers {
		s.plater = append(s.plater, draw(choice.PlaterSpread(s.st, q)))
	}
	s.other = draw(s.st.Tables.Spread)
}

// part is what part of the way to the end of its span a guess is off: -1..1.
func part(off, low, high float64) float64 {
	switch {
	case off < 0:
		return off / low
	case off > 0:
		return off / high
	}
	return 0
}

// run carries the plan out once: what is paid with the fallbacks held, what is paid
// with the best left over, and the total at the planned prices.
func (s *simulator) run() (cash, again, total catalog.Cents) {
	for _, c := range s.plan.Charges {
		cash += c.Cents
		total += c.Cents
	}
	again = cash
	used := map[int]bool{}
	for i := range s.plan.Lines {
		l := &s.plan.Lines[i]
		paid, planned, ok := s.try(l.Choice, false)
		cash, again, total = cash+paid, again+paid, total+planned
		if ok {
			s.hang(l.Slot, l.Choice.Grade)
			continue
		}
		found := s.st.Slots[l.Slot].Target.Floor.Or(l.Choice.Grade)
		held, heldPlanned := s.rescued(l.Slot)
		if l.Fallback != nil {
			paid, planned, ok := s.try(l.Fallback, true)
			if ok {
				held, heldPlanned = paid, planned
				found = l.Fallback.Grade
			} else {
				held, heldPlanned = held+paid, heldPlanned+planned
			}
		}
		s.hang(l.Slot, found)
		cash, total = cash+held, total+heldPlanned
		again += s.replan(i, used)
	}
	return cash, again, total
}

// hang counts what fills a slot in the end towards the mean grade of the run.
func (s *simulator) hang(slot int, grade catalog.Centi) {
	s.grade += s.weights[slot] * float64(grade) / 100
}

// replan takes the cheapest piece left over for a slot, if standing in with it costs
// less on average than a rescue.
func (s *simulator) replan(i int, used map[int]bool) catalog.Cents {
	slot := s.plan.Lines[i].Slot
	for k := range s.spare[i] {
		c := &s.spare[i][k]
		if used[c.Piece] || choice.FallbackCost(s.st, c)-c.Keeps >= choice.Rescue(s.st, slot) ||
			c.Piece == s.plan.Lines[i].Choice.Piece {
			continue
		}
		used[c.Piece] = true
		paid, _, ok := s.try(c, true)
		if !ok {
			more, _ := s.rescued(slot)
			paid += more
		}
		return paid
	}
	paid, _ := s.rescued(slot)
	return paid
}

func (s *simulator) rescued(slot int) (cash, total catalog.Cents) {
	return choice.Rescue(s.st, slot), choice.Rescue(s.st, slot)
}

// try has one choice carried out: what is paid with the estimates off, what it comes
// to at planned prices, and whether the slot is filled.
func (s *simulator) try(c *plan.Choice, standsIn bool) (cash, total catalog.Cents, ok bool) {
	if s.r.Float64() >= share(c.Chance) {
		return 0, 0, false
	}
	if c.Misfit > 0 && s.r.Float64() < share(c.Misfit) {
		back := choice.Returned(s.st, c, standsIn)
		return back, back, false
	}
	plate, extra := c.Plate, catalog.Cents(0)
	if standsIn {
		plate, extra = choice.FallbackCharges(s.st, c)
	}
	if s.r.Float64() < share(c.Refused) {
		return c.Get + extra + s.worked(c.Before) + c.Strip, c.Get + c.Give + extra + c.Before + c.Strip, false
	}
	total = c.Get + c.Give + extra + c.Before + plate + c.Other
	cash = c.Get + extra + s.off(c, plate) + s.worked(c.Before+c.Other)
	return cash, total, s.r.Float64() >= share(c.Breakage)
}

// off is what the plater's part comes to in this run; a firm price stays.
func (s *simulator) off(c *plan.Choice, plate catalog.Cents) catalog.Cents {
	if !c.Plated() || (c.Quote != catalog.None && s.st.Pieces[c.Piece].Quotes[c.Quote].Firm == catalog.Firm) {
		return plate
	}
	priced := *c
	priced.Plate = plate
	return max(0, moved(plate, choice.PlateSpread(s.st, &priced), s.plater[c.Plater]))
}

// worked is what work by the hour comes to in this run.
func (s *simulator) worked(sum catalog.Cents) catalog.Cents {
	return moved(sum, choice.GuessSpread(s.st, sum), s.other)
}

// moved takes a sum a part of the way to the end of its span, -1..1.
func moved(sum catalog.Cents, off choice.Span, part float64) catalog.Cents {
	if part < 0 {
		return sum - catalog.Cents(-part*float64(off.Below)+0.5)
	}
	return sum + catalog.Cents(part*float64(off.Above)+0.5)
}
