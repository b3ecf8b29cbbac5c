package jobs

import (
	"fmt"
	"math/rand/v2"
	"slices"

	"brightset/catalog"
)

// Trades offers some pieces that have to be paid for against the customer's.
func (j *RandomJob) Trades() {
	r := j.Of("trade")
	if !j.has("trade") {
		return
	}
	for i := range 1 + r.IntN(3) {
		give, get := r.IntN(len(j.St.Pieces)), r.IntN(len(j.St.Pieces))
		if j.St.Pieces[give].Side != catalog.Customers || j.St.Pieces[get].Side == catalog.Customers {
			continue
		}
		j.St.Trades = append(j.St.Trades, catalog.Trade{ID: fmt.Sprintf("t%d", i), Give: give, Get: get,
			Credit: Between[catalog.Cents](r, 10_00, 120_00)})
	}
}

// Targets sets the job's target and resolves the slots' own over it.
func (j *RandomJob) Targets() {
	j.St.Job.Target = j.target("", 50_00, 80_00)
	if r := j.Of("mean"); j.has("mean") {
		j.St.Job.Target.Mean = Set(Between[catalog.Centi](r, 60_00, 88_00))
	}
	for s := range j.St.Slots {
		slot := &j.St.Slots[s]
		slot.Target = j.St.Job.Target
		name := fmt.Sprint("slot-target ", s)
		if r := j.Of(name); j.has("slot-target") && Chance(r, 50) {
			slot.Target, slot.Own.Named = j.target(name, 40_00, 92_00), true
		}
		slot.Target.Mean = catalog.Val[catalog.Centi]{}
	}
}

// target makes a target without a mean.
func (j *RandomJob) target(name string, low, high catalog.Centi) catalog.Target {
	var t catalog.Target
	if r := j.Of(name + "floor"); j.has("floor") {
		t.Floor = Set(Between(r, low, high))
	}
	if j.has("fresh") {
		t.Fresh = Set(true)
	}
	if j.has("redone") {
		t.Redone = Set(true)
	}
	if j.has("lasting") {
		t.Lasting = Set(true)
	}
	if r := j.Of(name + "fallback-floor"); j.has("fallback-floor") {
		t.FallbackFloor = Set(Between(r, low-20_00, high))
	}
	return t
}

// Matches makes one group of two to all slots.
func (j *RandomJob) Matches() {
	r := j.Of("match")
	n := len(j.St.Slots)
	m := catalog.Match{ID: "m1"}
	if n < 2 {
		return
	}
	m.Slots = r.Perm(n)[:2+r.IntN(n-1)]
	if r := j.Of("match-grade"); j.has("match-grade") {
		m.GradeWithin = Set(Between[catalog.Centi](r, 0, 15_00))
	}
	if r := j.Of("match-tone"); j.has("match-tone") {
		m.ToneWithin = Set(Between[catalog.Centi](r, 0, 2_50))
	}
	m.SamePlater, m.FreshAlike = j.has("match-plater"), j.has("match-fresh")
	if m.GradeWithin.Set || m.ToneWithin.Set || m.SamePlater || m.FreshAlike {
		j.St.Matches = []catalog.Match{m}
	}
}

// Filters locks one slot and bans one thing.
func (j *RandomJob) Filters() {
	if r := j.Of("lock"); j.has("lock") {
		f := j.filter(r)
		f.Slot = r.IntN(len(j.St.Slots))
		if f.Piece != catalog.None {
			f.Piece = j.fitting(r, f.Slot)
		}
		j.St.Locks = []catalog.Lock{{Filter: f}}
	}
	if r := j.Of("ban"); j.has("ban") {
		f := j.filter(r)
		if Chance(r, 50) {
			f.Slot = r.IntN(len(j.St.Slots))
		}
		j.St.Bans = []catalog.Ban{{ID: "b1", Filter: f}}
	}
}

// filter picks by one thing only.
func (j *RandomJob) filter(r *rand.Rand) catalog.Filter {
	f := catalog.Filter{Slot: catalog.None, Piece: catalog.None, Plater: catalog.None}
	switch r.IntN(4) {
	case 0:
		f.Work = []string{catalog.WorkAsIs, catalog.WorkClean, catalog.WorkReplate, catalog.WorkRepair}[r.IntN(4)]
	case 1:
		f.Plater = r.IntN(len(j.St.Platers))
	case 2:
		f.Level = []string{"driver", "show"}[r.IntN(2)]
	default:
		f.Piece = r.IntN(len(j.St.Pieces))
	}
	return f
}

// fitting is one of the pieces meant for a slot.
func (j *RandomJob) fitting(r *rand.Rand, slot int) int {
	for {
		if p := r.IntN(len(j.St.Pieces)); slices.Contains(j.St.Pieces[p].Fits, slot) {
			return p
		}
	}
}

// Limits sets the date, the chance of completion and the budget. The budget is
// drawn around what such a job costs, so that it binds in some jobs.
func (j *RandomJob) Limits() {
	n := catalog.Cents(len(j.St.Slots))
	if r := j.Of("days"); j.has("days") {
		j.St.Job.WithinDays = Set(Between(r, 15, 110))
	}
	if r := j.Of("completion"); j.has("completion") {
		j.St.Job.Completion = Set(Between[catalog.Micro](r, 800_000, 999_000))
	}
	if r := j.Of("budget"); j.has("budget-outlay") {
		j.St.Job.Budget = Set(n * Between[catalog.Cents](r, 40_00, 170_00))
	} else if j.has("budget-expected") {
		j.St.Job.Budget, j.St.Job.BudgetOn = Set(n*Between[catalog.Cents](r, 60_00, 200_00)),
			catalog.OnExpected
	} else if j.has("budget-quote") {
		j.St.Quote = OwnerQuote(j.Of("owner's quote"))
		j.St.Job.SpentSum = Between[catalog.Cents](r, -20_00, 60_00)
		j.St.Job.Budget, j.St.Job.BudgetOn = Set(n*Between[catalog.Cents](r, 90_00, 300_00)), catalog.OnQuote
	}
}

// OwnerQuote draws how the owner is quoted: markups in tens of a hundred, or to the last
// millionth, or none; labour and tax.
func OwnerQuote(r *rand.Rand) catalog.OwnerQuote {
	share := func() catalog.Micro {
		switch r.IntN(4) {
		case 0:
			return 0
		case 1:
			return Between[catalog.Micro](r, 0, 500_000)
		}
		return 50_000 * Between[catalog.Micro](r, 0, 6)
	}
	return catalog.OwnerQuote{Given: true, Plating: share(), Parts: share(), Tax: share(),
		Hourly: Set(Between[catalog.Cents](r, 0, 70_00)), Removal: share(), Fitting: share(),
		Packing: share(), Broken: Chance(r, 50)}
}
