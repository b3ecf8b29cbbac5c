package check

import (
	"math"

	"brightset/catalog"
	"brightset/model/plan"
)

// checkLine checks what binds one slot by itself.
func (j *audit) checkLine(l auditedLine) {
	slot, where := &j.st.Slots[l.slot], j.slotName(l.slot)
	t := &slot.Target
	j.checkFinish(l.k, t, where, "")
	j.checkBears(l.k, where, "")
	if slot.MaxBreakage.Set && l.k.Breakage > slot.MaxBreakage.V {
		j.report("max-breakage", where, "breaks with %d millionths, at most %d are allowed", l.k.Breakage,
			slot.MaxBreakage.V)
	}
	j.checkFilters(l)
	j.checkDays(l)
	if riskOf(l.k, l.f) == 1 {
		j.report("certain-failure", where, "everything planned for it fails for certain")
	}
	if want := lineExpected(j.st, l); l.given.Expected != want {
		j.report("line-expected", where, "expected is %s, but adds up to %s", money(l.given.Expected),
			money(want))
	}
	if want := kept(l); l.given.Keeps != want {
		j.report("line-keeps", where, "what is kept is worth %s, but adds up to %s", money(l.given.Keeps), money(want))
	}
	if l.f == nil {
		return
	}
	if l.f.Piece == l.k.Piece {
		j.report("fallback-piece", where, "the fallback is the chosen piece itself")
	}
	if l.k.Fails == 0 {
		j.report("fallback-needless", where, "has a fallback though the choice can't fail")
	}
	j.checkBears(l.f, where+", fallback", "fallback-")
	if !t.FallbackFloor.Set {
		j.checkFinish(l.f, t, where+", fallback", "fallback-")
	} else if l.f.Grade < t.FallbackFloor.V {
		j.report("fallback-floor", where+", fallback", "grade %s is below the fallback floor of %s",
			hundredths(l.f.Grade), hundredths(t.FallbackFloor.V))
	}
}

// checkFinish checks floor, fresh, redone and lasting of one choice; prefix goes
// before the rule's name.
func (j *audit) checkFinish(c *plan.Choice, t *catalog.Target, where, prefix string) {
	if t.Floor.Set && c.Grade < t.Floor.V {
		j.report(prefix+"floor", where, "grade %s is below the floor of %s", hundredths(c.Grade),
			hundredths(t.Floor.V))
	}
	if t.Fresh.Or(false) && !c.Fresh {
		j.report(prefix+"fresh", where, "has to be freshly finished and isn't")
	}
	if t.Redone.Or(false) && !c.Redone {
		j.report(prefix+"redone", where, "has to be refinished and isn't")
	}
	if t.Lasting.Or(false) && c.Growing {
		j.report(prefix+"lasting", where, "keeps a fault that goes on growing")
	}
}

// checkFilters checks locks, which bind the choice, and bans, which bind the
// fallback too.
func (j *audit) checkFilters(l auditedLine) {
	where := j.slotName(l.slot)
	for _, lock := range j.st.Locks {
		if (lock.Slot == catalog.None || lock.Slot == l.slot) && !keepsLock(j.st, &lock.Filter, l.k) {
			j.report("lock", where, "the choice isn't the locked one")
		}
	}
	for _, ban := range j.st.Bans {
		if matches(&ban.Filter, l.k) {
			j.report("ban", where, "the choice is forbidden by ban %q", ban.ID)
		}
		if l.f != nil && matches(&ban.Filter, l.f) {
			j.report("ban", where+", fallback", "the fallback is forbidden by ban %q", ban.ID)
		}
	}
}

// matches says whether a filter picks a choice.
func matches(f *catalog.Filter, c *plan.Choice) bool {
	return (f.Slot == catalog.None || f.Slot == c.Slot) &&
		(f.Piece == catalog.None || f.Piece == c.Piece) &&
		(f.Work == "" || f.Work == c.Work) &&
		(f.Plater == catalog.None || f.Plater == c.Plater) &&
		(f.Level == "" || f.Level == c.Level)
}

// checkDays checks the date, also for the case that the choice fails.
func (j *audit) checkDays(l auditedLine) {
	limit := j.st.Job.WithinDays
	if !limit.Set {
		return
	}
	days := daysAtLatest(j.st, l.k, l.f)
	if l.with != nil && l.given.Sharing.Yields {
		days = max(days, daysAtLatest(j.st, l.k, nil))
	}
	if days > limit.V {
		j.report("days", j.slotName(l.slot), "takes %d days at worst, there are %d", days, limit.V)
	}
}

// daysAtLatest is how long a line takes, counting what is planned for a failure.
func daysAtLatest(st *catalog.State, k, f *plan.Choice) int {
	days := k.Days
	switch {
	case k.Fails == 0:
	case f == nil:
		days += st.Slots[k.Slot].RescueDays.Or(0)
	default:
		days += f.Days
	}
	if days > 0 {
		days += st.Job.Elapsed
	}
	return days
}

// Expected is the cost of a line: the choice, plus what its failing costs.
func Expected(st *catalog.State, k, f *plan.Choice) catalog.Cents {
	rescue := st.Slots[k.Slot].Rescue.Or(0)
	if f == nil {
		return k.ExpectedCost + catalog.Of(k.Fails, rescue)
	}
	work, freight := f.Plate, catalog.Cents(0)
	if f.Plater != catalog.None && !isAtPlater(&st.Pieces[f.Piece]) {
		work = max(work, st.Platers[f.Plater].Minimum)
		freight += st.Platers[f.Plater].Freight
	}
	piece := &st.Pieces[f.Piece]
	back := f.Back // a misfit has come by then: both ways are paid
	if piece.Bundle == catalog.None && piece.Vendor != catalog.None {
		freight += st.Vendors[piece.Vendor].Freight
		back += st.Vendors[piece.Vendor].Freight
	}
	comesAndFits := catalog.Both(f.Chance, catalog.One-f.Misfit)
	fallback := catalog.Of(comesAndFits, f.Get+f.Give+f.Before+catalog.Of(f.Refused, f.Strip)+
		catalog.Of(catalog.One-f.Refused, work+f.Other)+freight) +
		catalog.Of(f.Chance-comesAndFits, back) + catalog.Of(f.Fails, rescue)
	return k.ExpectedCost + catalog.Of(k.Fails, fallback)
}

// riskOf is the chance that a line ends in a rescue.
func riskOf(k, f *plan.Choice) float64 {
	p := int64(k.Fails) * int64(catalog.One)
	if f != nil {
		p = int64(k.Fails) * int64(f.Fails)
	}
	return float64(p) / 1e12
}

// riskWeight is a line's part of what the completion row limits.
func riskWeight(k, f *plan.Choice) int64 {
	return int64(math.Round(-1e6 * math.Log1p(-riskOf(k, f))))
}
