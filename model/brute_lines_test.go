package model

import (
	"sort"

	"brightset/catalog"
)

// bruteLine is one line of one slot with what the search adds up.
type bruteLine struct {
	k, f  *Choice
	cost  catalog.Cents
	risk  int64
	grade int64 // weight x grade of k
}

// bruteChoices makes every choice of a slot, in the order of the state, before
// any rule of the target.
func bruteChoices(st *catalog.State, slot int) []*Choice {
	var out []*Choice
	try := func(c Choice) {
		if again, _, _ := judgeDerive(st, &c); again != nil {
			out = append(out, again)
		}
	}
	for p := range st.Pieces {
		bare := Choice{Slot: slot, Piece: p, Plater: catalog.None, Quote: catalog.None}
		for _, work := range []string{catalog.WorkAsIs, catalog.WorkClean} {
			c := bare
			c.Work = work
			try(c)
		}
		if sent := &st.Pieces[p].Sent; sent.Was && st.Pieces[p].Stage < catalog.StageBack {
			c := bare
			c.Work, c.Plater, c.Level = sent.Work, sent.Plater, sent.Level
			try(c)
			continue // all there is
		}
		for _, work := range []string{catalog.WorkReplate, catalog.WorkRepair} {
			for q := range st.Platers {
				for _, level := range st.Platers[q].Levels {
					c := bare
					c.Work, c.Plater, c.Level = work, q, level.Name
					try(c)
				}
			}
			for i, quote := range st.Pieces[p].Quotes {
				for _, level := range bruteLevels(&st.Platers[quote.Plater]) {
					c := bare
					c.Work, c.Plater, c.Level, c.Quote = work, quote.Plater, level, i
					try(c)
				}
			}
		}
	}
	return out
}

// bruteLevels are the levels a quote of a plater may be at, "" for unsaid.
func bruteLevels(q *catalog.Plater) []string {
	names := []string{""}
	for _, l := range q.Levels {
		names = append(names, l.Name)
	}
	return names
}

// bruteLines makes every line of a slot that meets what binds the slot alone,
// the cheapest first.
func bruteLines(st *catalog.State, slot int) []bruteLine {
	choices := bruteChoices(st, slot)
	var lines []bruteLine
	for _, k := range choices {
		if !bruteChosenMay(st, k) {
			continue
		}
		fallbacks := []*Choice{nil}
		if k.Fails > 0 {
			for _, f := range choices {
				if f.Piece != k.Piece && bruteReserveMay(st, f) {
					fallbacks = append(fallbacks, f)
				}
			}
		}
		for _, f := range fallbacks {
			if judgeRisk(k, f) < 1 && bruteInTime(st, k, f) {
				lines = append(lines, bruteLine{k, f, judgeExpected(st, k, f), judgeRiskWeight(k, f),
					int64(st.Slots[slot].Weight) * int64(k.Grade)})
			}
		}
	}
	sort.SliceStable(lines, func(a, b int) bool { return lines[a].cost < lines[b].cost })
	return lines
}

// bruteChosenMay says whether a choice may be hung.
func bruteChosenMay(st *catalog.State, k *Choice) bool {
	slot := &st.Slots[k.Slot]
	for _, lock := range st.Locks {
		if lock.Slot == k.Slot && !brutePicks(lock.Filter, k) && !bruteDone(st, lock.Filter, k) {
			return false
		}
	}
	return bruteFinished(&slot.Target, k) && !bruteBanned(st, k) &&
		(!slot.MaxBreakage.Set || k.Breakage <= slot.MaxBreakage.V)
}

// bruteDone says whether what hangs is what was wanted, done already: plated and back, or
// cleaned and hung.
func bruteDone(st *catalog.State, want catalog.Filter, k *Choice) bool {
	p := &st.Pieces[k.Piece]
	if k.Work != catalog.WorkAsIs || want.Piece >= 0 && want.Piece != k.Piece {
		return false
	}
	if p.Sent.Was {
		q := &p.Sent
		return (want.Work == "" || want.Work == q.Work) && (want.Plater < 0 || want.Plater == q.Plater) && (want.Level == "" || want.Level == q.Level)
	}
	return p.Stage == catalog.StageHung && want.Work == catalog.WorkClean && want.Plater < 0 && want.Level == ""
}

// bruteReserveMay says whether a choice may be held in reserve.
func bruteReserveMay(st *catalog.State, f *Choice) bool {
	t := &st.Slots[f.Slot].Target
	if t.FallbackFloor.Set {
		return f.Grade >= t.FallbackFloor.V && !bruteBanned(st, f)
	}
	return bruteFinished(t, f) && !bruteBanned(st, f)
}

func bruteFinished(t *catalog.Target, c *Choice) bool {
	if t.Floor.Set && t.Floor.V > c.Grade {
		return false
	}
	mustBeFresh, mustLast := t.Fresh.Set && t.Fresh.V, t.Lasting.Set && t.Lasting.V
	return (c.Fresh || !mustBeFresh) && !(c.Growing && mustLast)
}

func bruteBanned(st *catalog.State, c *Choice) bool {
	for _, ban := range st.Bans {
		if (ban.Slot == catalog.None || ban.Slot == c.Slot) && brutePicks(ban.Filter, c) {
			return true
		}
	}
	return false
}

// brutePicks says whether a filter picks a choice, its slot aside.
func brutePicks(f catalog.Filter, c *Choice) bool {
	if f.Piece >= 0 && f.Piece != c.Piece || f.Plater >= 0 && f.Plater != c.Plater {
		return false
	}
	return !(f.Work != "" && f.Work != c.Work || f.Level != "" && f.Level != c.Level)
}

func bruteInTime(st *catalog.State, k, f *Choice) bool {
	if !st.Job.WithinDays.Set {
		return true
	}
	days := k.Days
	if k.Fails > 0 && f != nil {
		days += f.Days
	} else if k.Fails > 0 {
		days += st.Slots[k.Slot].RescueDays.V
	}
	if days > 0 {
		days += st.Job.Elapsed // what takes no time is there
	}
	return days <= st.Job.WithinDays.V
}
