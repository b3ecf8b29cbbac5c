package risk

import (
	"cmp"
	"context"
	"slices"

	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
	"brightset/model/program"
)

// Risk is how a plan may turn out: pieces break, are sent back or don't come, each
// by itself, and are replaced as the plan says. Prices are taken as planned.
type Risk struct {
	Plan    *plan.Plan
	Total   *Distribution // of what the plan minimises
	Cash    *Distribution // of what is paid
	Coarse  bool          // time ran out: sums and chances are told by coarse steps
	Budget  Between       // chance to stay within the budget; 1 where there is none
	InTime  float64       // chance that the set hangs by the date; 1 where there is none
	Mean    Between       // chance that the mean grade is as asked for; 1 where none is
	grade   *Distribution // of the sum of weight x grade
	lines   [][]Outcome
	Rescues float64    // chance that some slot needs a rescue
	Slots   []SlotRisk // those that can fail, the one that spreads the sum most first
	Lots    []LotRisk  // what it means if a plater loses all he has
}

// SlotRisk is what one slot adds to the uncertainty.
type SlotRisk struct {
	Slot  int
	Fails float64       // chance that its choice fails
	Share float64       // of the variance of the cash
	Worst catalog.Cents // cash above the planned, if all fails
}

// LotRisk is what a plan costs more if all pieces at one plater are lost, and how
// many slots then have nothing in reserve.
type LotRisk struct {
	Plater int
	Slots  int
	More   catalog.Cents // on average, rounded per slot
	Bare   int
}

// RiskOf works a plan's chances out, the slots being independent: exactly, or, where more sums may
// come about than can be told apart, by steps, and the chances that hang on them as what they lie
// between; by coarse steps where the context ends before that is done.
func RiskOf(ctx context.Context, plan *plan.Plan) *Risk {
	r := &Risk{Plan: plan, Budget: sure, InTime: 1, Mean: sure}
	var total, cash, grade [][]atom
	charges, kept := catalog.Cents(0), 1.0
	for _, c := range plan.Charges {
		charges += c.Cents
	}
	for i := range plan.Lines {
		l := &plan.Lines[i]
		all := Outcomes(plan.Of, l)
		r.lines = append(r.lines, all)
		total, cash = append(total, atomsOf(all, func(o Outcome) catalog.Cents { return o.Cents })),
			append(cash, atomsOf(all, func(o Outcome) catalog.Cents { return o.Cash }))
		grade = append(grade, atomsOf(all, func(o Outcome) catalog.Cents {
			return catalog.Cents(weightOf(plan.Of, l.Slot) * int64(o.Grade))
		}))
		safe := 0.0
		for _, o := range all {
			if !o.Rescue {
				safe += o.Chance
			}
		}
		kept *= safe
		if len(all) > 1 {
			r.Slots = append(r.Slots, slotRisk(l, all))
		}
	}
	r.Rescues = 1 - kept
	if plan.Of.Job.WithinDays.Set {
		r.InTime = r.by(plan.Of.Job.WithinDays.V)
	}
	r.Total, r.Cash = r.addUp(ctx, total, charges), r.addUp(ctx, cash, charges)
	if job := &plan.Of.Job; job.Budget.Set {
		switch job.BudgetOn {
		case catalog.OnExpected:
			r.Budget = r.Total.Within(job.Budget.V)
		case catalog.OnQuote:
			r.Budget = r.Cash.Within(plan.Outlay + plan.RoomOnTop())
		default:
			r.Budget = r.Cash.Within(job.Budget.V)
		}
	}
	r.grade = r.addUp(ctx, grade, 0)
	if mean := plan.Of.Job.Target.Mean; mean.Set && program.TotalWeight(plan.Of) > 0 {
		r.Mean = r.grade.AtLeast(catalog.Cents(program.MeanLimit(plan.Of, mean.V)))
	}
	r.shares()
	r.Lots = lotRisks(plan)
	return r
}

func (r *Risk) addUp(ctx context.Context, parts [][]atom, certain catalog.Cents) *Distribution {
	d, whole := addUp(ctx, parts, certain)
	r.Coarse = r.Coarse || !whole
	return d
}

// Days is the first day by which the set hangs with a chance of q.
func (r *Risk) Days(q float64) int {
	var days []int
	for _, all := range r.lines {
		for _, o := range all {
			days = append(days, o.Days)
		}
	}
	slices.Sort(days)
	for _, d := range days {
		if r.by(d) >= q-1e-12 {
			return d
		}
	}
	return 0
}

// DaysOf is Days of a plan, and nothing else of what RiskOf works out.
func DaysOf(p *plan.Plan, q float64) int {
	r := &Risk{Plan: p}
	for i := range p.Lines {
		r.lines = append(r.lines, Outcomes(p.Of, &p.Lines[i]))
	}
	return r.Days(q)
}

// by is the chance that the set hangs by a day.
func (r *Risk) by(day int) float64 {
	chance := 1.0
	for _, all := range r.lines {
		in := 0.0
		for _, o := range all {
			if o.Days <= day {
				in += o.Chance
			}
		}
		chance *= in
	}
	return chance
}

// Grade is the mean grade that the set reaches with a chance of q, or more.
func (r *Risk) Grade(q float64) float64 { return r.meanOf(r.grade.Reached(q)) }

// GradeOff is how far what Grade says may be off; 0 where it is exact.
func (r *Risk) GradeOff() float64 { return r.meanOf(r.grade.Off) }

func (r *Risk) meanOf(points catalog.Cents) float64 {
	sum := int64(0)
	for s := range r.Plan.Of.Slots {
		sum += weightOf(r.Plan.Of, s)
	}
	return float64(points) / float64(100*max(1, sum))
}

// weightOf is what a slot counts for in the mean; all count alike where none has a
// weight.
func weightOf(st *catalog.State, slot int) int64 {
	if program.TotalWeight(st) == 0 {
		return 1
	}
	return int64(st.Slots[slot].Weight)
}

// atomsOf keeps what a sum needs of outcomes; equal values are put together.
func atomsOf(all []Outcome, of func(Outcome) catalog.Cents) []atom {
	var out []atom
	for _, o := range all {
		v := of(o)
		at := slices.IndexFunc(out, func(a atom) bool { return a.cents == v })
		if at < 0 {
			out = append(out, atom{0, v})
			at = len(out) - 1
		}
		out[at].chance += o.Chance
	}
	return out
}

// slotRisk leaves the variance in Share until all are known.
func slotRisk(l *plan.Line, all []Outcome) SlotRisk {
	s := SlotRisk{Slot: l.Slot, Fails: share(l.Choice.Fails)}
	mean := 0.0
	for _, o := range all {
		mean += o.Chance * float64(o.Cash)
		s.Worst = max(s.Worst, o.Cash-l.Choice.Cash)
	}
	for _, o := range all {
		s.Share += o.Chance * (float64(o.Cash) - mean) * (float64(o.Cash) - mean)
	}
	return s
}

func (r *Risk) shares() {
	sum := 0.0
	for i := range r.Slots {
		sum += r.Slots[i].Share
	}
	for i := range r.Slots {
		if sum > 0 {
			r.Slots[i].Share /= sum
		}
	}
	slices.SortStableFunc(r.Slots, func(a, b SlotRisk) int { return cmp.Compare(b.Share, a.Share) })
}

// lotRisks: every piece at the plater has failed; what stands in for it costs what
// it costs on average.
func lotRisks(plan *plan.Plan) []LotRisk {
	var all []LotRisk
	for q := range plan.Of.Platers {
		lot := LotRisk{Plater: q}
		for i := range plan.Lines {
			l := &plan.Lines[i]
			if l.Choice.Plater != q {
				continue
			}
			lot.Slots++
			if l.Fallback == nil {
				lot.Bare++
				lot.More += choice.Rescue(plan.Of, l.Slot)
			} else {
				lot.More += choice.FallbackCost(plan.Of, l.Fallback)
			}
		}
		if lot.Slots > 0 {
			all = append(all, lot)
		}
	}
	return all
}
