package model

import (
	"fmt"
	"math/rand/v2"
	"slices"

	"brightset/catalog"
)

// trades offers some pieces that have to be paid for against the customer's.
func (j *randomJob) trades() {
	r := j.of("trade")
	if !j.has("trade") {
		return
	}
	for i := range 1 + r.IntN(3) {
		give, get := r.IntN(len(j.st.Pieces)), r.IntN(len(j.st.Pieces))
		if j.st.Pieces[give].Side != catalog.Customers || j.st.Pieces[get].Side == catalog.Customers {
			continue
		}
		j.st.Trades = append(j.st.Trades, catalog.Trade{ID: fmt.Sprintf("t%d", i), Give: give, Get: get,
			Credit: randomFrom[catalog.Cents](r, 10_00, 120_00)})
	}
}

// targets sets the job's target and resolves the slots' own over it.
func (j *randomJob) targets() {
	j.st.Job.Target = j.target("", 50_00, 80_00)
	if r := j.of("mean"); j.has("mean") {
		j.st.Job.Target.Mean = randomSet(randomFrom[catalog.Centi](r, 60_00, 88_00))
	}
	for s := range j.st.Slots {
		slot := &j.st.Slots[s]
		slot.Target = j.st.Job.Target
		name := fmt.Sprint("slot-target ", s)
		if r := j.of(name); j.has("slot-target") && randomChance(r, 50) {
			slot.Target, slot.Own.Named = j.target(name, 40_00, 92_00), true
		}
		slot.Target.Mean = catalog.Val[catalog.Centi]{}
	}
}

// target makes a target without a mean.
func (j *randomJob) target(name string, low, high catalog.Centi) catalog.Target {
	var t catalog.Target
	if r := j.of(name + "floor"); j.has("floor") {
		t.Floor = randomSet(randomFrom(r, low, high))
	}
	if j.has("fresh") {
		t.Fresh = randomSet(true)
	}
	if j.has("lasting") {
		t.Lasting = randomSet(true)
	}
	if r := j.of(name + "fallback-floor"); j.has("fallback-floor") {
		t.FallbackFloor = randomSet(randomFrom(r, low-20_00, high))
	}
	return t
}

// matches makes one group of two to all slots.
func (j *randomJob) matches() {
	r := j.of("match")
	n := len(j.st.Slots)
	m := catalog.Match{ID: "m1"}
	if n < 2 {
		return
	}
	m.Slots = r.Perm(n)[:2+r.IntN(n-1)]
	if r := j.of("match-grade"); j.has("match-grade") {
		m.GradeWithin = randomSet(randomFrom[catalog.Centi](r, 0, 15_00))
	}
	if r := j.of("match-tone"); j.has("match-tone") {
		m.ToneWithin = randomSet(randomFrom[catalog.Centi](r, 0, 2_50))
	}
	m.SamePlater, m.FreshAlike = j.has("match-plater"), j.has("match-fresh")
	if m.GradeWithin.Set || m.ToneWithin.Set || m.SamePlater || m.FreshAlike {
		j.st.Matches = []catalog.Match{m}
	}
}

// filters locks one slot and bans one thing.
func (j *randomJob) filters() {
	if r := j.of("lock"); j.has("lock") {
		f := j.filter(r)
		f.Slot = r.IntN(len(j.st.Slots))
		if f.Piece != catalog.None {
			f.Piece = j.fitting(r, f.Slot)
		}
		j.st.Locks = []catalog.Lock{{Filter: f}}
	}
	if r := j.of("ban"); j.has("ban") {
		f := j.filter(r)
		if randomChance(r, 50) {
			f.Slot = r.IntN(len(j.st.Slots))
		}
		j.st.Bans = []catalog.Ban{{ID: "b1", Filter: f}}
	}
}

// filter picks by one thing only.
func (j *randomJob) filter(r *rand.Rand) catalog.Filter {
	f := catalog.Filter{Slot: catalog.None, Piece: catalog.None, Plater: catalog.None}
	switch r.IntN(4) {
	case 0:
		f.Work = []string{catalog.WorkAsIs, catalog.WorkClean, catalog.WorkReplate, catalog.WorkRepair}[r.IntN(4)]
	case 1:
		f.Plater = r.IntN(len(j.st.Platers))
	case 2:
		f.Level = []string{"driver", "show"}[r.IntN(2)]
	default:
		f.Piece = r.IntN(len(j.st.Pieces))
	}
	return f
}

// fitting is one of the pieces meant for a slot.
func (j *randomJob) fitting(r *rand.Rand, slot int) int {
	for {
		if p := r.IntN(len(j.st.Pieces)); slices.Contains(j.st.Pieces[p].Fits, slot) {
			return p
		}
	}
}

// limits sets the date, the chance of completion and the budget. The budget is
// drawn around what such a job costs, so that it binds in some jobs.
func (j *randomJob) limits() {
	n := catalog.Cents(len(j.st.Slots))
	if r := j.of("days"); j.has("days") {
		j.st.Job.WithinDays = randomSet(randomFrom(r, 15, 110))
	}
	if r := j.of("completion"); j.has("completion") {
		j.st.Job.Completion = randomSet(randomFrom[catalog.Micro](r, 800_000, 999_000))
	}
	if r := j.of("budget"); j.has("budget-outlay") {
		j.st.Job.Budget = randomSet(n * randomFrom[catalog.Cents](r, 40_00, 170_00))
	} else if j.has("budget-expected") {
		j.st.Job.Budget, j.st.Job.BudgetOn = randomSet(n*randomFrom[catalog.Cents](r, 60_00, 200_00)), catalog.OnExpected
	}
}
