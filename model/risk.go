package model

import (
	"cmp"
	"slices"

	"brightset/catalog"
)

// Risk is how a plan may turn out: pieces break, are sent back or don't come, each
// by itself, and are replaced as the plan says. Prices are taken as planned.
type Risk struct {
	Plan    *Plan
	Total   *Distribution // of what the plan minimises
	Cash    *Distribution // of what is paid
	Budget  float64       // chance to stay within the budget; 1 where there is none
	InTime  float64       // chance that the set hangs by the date; 1 where there is none
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

// RiskOf works a plan's chances out exactly, the slots being independent.
func RiskOf(st *catalog.State, plan *Plan) *Risk {
	r := &Risk{Plan: plan, Budget: 1, InTime: 1}
	var total, cash [][]atom
	sure, kept := catalog.Cents(0), 1.0
	for _, c := range plan.Charges {
		sure += c.Cents
	}
	for i := range plan.Lines {
		l := &plan.Lines[i]
		all := Outcomes(st, l)
		r.lines = append(r.lines, all)
		total, cash = append(total, atomsOf(all, false)), append(cash, atomsOf(all, true))
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
	if st.Job.WithinDays.Set {
		r.InTime = r.by(st.Job.WithinDays.V)
	}
	r.Total, r.Cash = addUp(total, sure), addUp(cash, sure)
	if job := &st.Job; job.Budget.Set {
		d := r.Cash
		if job.BudgetOn == catalog.OnExpected {
			d = r.Total
		}
		r.Budget = d.Within(job.Budget.V)
	}
	r.shares()
	r.Lots = lotRisks(st, plan)
	return r
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

// atomsOf keeps what the sums need of outcomes; equal sums are put together.
func atomsOf(all []Outcome, cash bool) []atom {
	var out []atom
	for _, o := range all {
		v := o.Cents
		if cash {
			v = o.Cash
		}
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
func slotRisk(l *Line, all []Outcome) SlotRisk {
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
func lotRisks(st *catalog.State, plan *Plan) []LotRisk {
	var all []LotRisk
	for q := range st.Platers {
		lot := LotRisk{Plater: q}
		for i := range plan.Lines {
			l := &plan.Lines[i]
			if l.Choice.Plater != q {
				continue
			}
			lot.Slots++
			if l.Fallback == nil {
				lot.Bare++
				lot.More += rescue(st, l.Slot)
			} else {
				lot.More += Standin(st, l.Fallback)
			}
		}
		if lot.Slots > 0 {
			all = append(all, lot)
		}
	}
	return all
}
