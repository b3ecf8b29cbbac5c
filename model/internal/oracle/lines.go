package oracle

import (
	"math/big"
	"slices"

	"brightset/catalog"
)

// Line is one line of one slot: what is hung, and what is held in reserve for it.
type Line struct {
	K, F   *Choice // F is nil where there is none
	Cost   catalog.Cents
	Keeps  catalog.Cents // worth to the owner that an own piece hangs, no money
	Risk   int64         // what it takes up of the completion row
	Finish int64         // weight x grade of K, in ten-thousandths
}

// Lines are the lines of a slot that meet what binds the slot alone, the cheapest first.
func (r *Reader) Lines(slot int) []Line {
	choices := r.Choices(slot)
	var lines []Line
	for _, k := range choices {
		if !r.MayHang(k) {
			continue
		}
		reserve := []*Choice{nil}
		for _, f := range choices {
			if k.Fails > 0 && f.Piece != k.Piece && r.MayWait(f) {
				reserve = append(reserve, f)
			}
		}
		for _, f := range reserve {
			if rescued(k, f) < million*million && r.inTime(k, f) {
				lines = append(lines, r.Line(k, f))
			}
		}
	}
	slices.SortStableFunc(lines, func(a, b Line) int { return int(a.weighed() - b.weighed()) })
	return lines
}

// Line adds a line up, whether or not it meets the rules.
func (r *Reader) Line(k, f *Choice) Line {
	l := Line{K: k, F: f, Cost: r.Expected(k, f), Keeps: k.Keeps,
		Finish: int64(r.st.Slots[k.Slot].Weight) * int64(k.Grade)}
	if f != nil {
		l.Keeps += part(k.Fails, f.Keeps)
	}
	if rescued(k, f) < million*million {
		l.Risk = r.risk(rescued(k, f))
	}
	return l
}

// weighed is what lines are compared by.
func (l *Line) weighed() catalog.Cents { return l.Cost - l.Keeps }

// Expected is E(s,k,f) = paid(k) + p_k fallback(f); fallback of nothing is the rescue.
func (r *Reader) Expected(k, f *Choice) catalog.Cents {
	if f == nil {
		return k.Paid + part(k.Fails, r.rescue(k))
	}
	return k.Paid + part(k.Fails, r.FallbackCost(f))
}

// FallbackCost is what falling back on f costs: it pays its lot and its way by itself.
func (r *Reader) FallbackCost(f *Choice) catalog.Cents {
	work, freight, back := f.Plate, catalog.Cents(0), f.Back
	if f.Plater >= 0 && !f.Sent {
		work = max(work, r.st.Platers[f.Plater].Minimum)
		freight = r.st.Platers[f.Plater].Freight
	}
	if piece := &r.st.Pieces[f.Piece]; piece.Vendor >= 0 && piece.Bundle < 0 {
		freight += r.st.Vendors[piece.Vendor].Freight
		back += r.st.Vendors[piece.Vendor].Freight // there and back
	}
	sum := f.Get + f.Give + f.Before + part(f.Refused, f.Strip) + part(million-f.Refused, work+f.Other) + freight
	fits := part(f.Chance, million-f.Misfit)
	return part(fits, sum) + part(f.Chance-fits, back) + part(f.Fails, r.rescue(f))
}

func (r *Reader) rescue(c *Choice) catalog.Cents { return or(r.st.Slots[c.Slot].Rescue, 0) }

// rescued is p_k p_f, in 1e-12.
func rescued(k, f *Choice) int64 {
	if f == nil {
		return int64(k.Fails) * million
	}
	return int64(k.Fails) * int64(f.Fails)
}

// risk is round(-1e6 ln(1 - p)) of a chance in 1e-12.
func (r *Reader) risk(p int64) int64 {
	v, known := r.losses[p]
	if !known {
		v = nearest(millionLn(big.NewInt(million*million-p), big.NewInt(million*million)))
		r.losses[p] = v
	}
	return v
}

// MayHang says whether a choice may be chosen.
func (r *Reader) MayHang(k *Choice) bool {
	slot := &r.st.Slots[k.Slot]
	for i := range r.st.Locks {
		lock := &r.st.Locks[i]
		if lock.Slot == k.Slot && !picks(&lock.Filter, k) && !r.wasPicked(&lock.Filter, k) {
			return false
		}
	}
	if r.tooWeak(k) {
		return false
	}
	return finished(&slot.Target, k) && !r.banned(k) && !(slot.MaxBreakage.Set && slot.MaxBreakage.V < k.Breakage)
}

// MayWait says whether a choice may be held in reserve.
func (r *Reader) MayWait(f *Choice) bool {
	t := &r.st.Slots[f.Slot].Target
	if r.banned(f) || r.tooWeak(f) {
		return false
	}
	if t.FallbackFloor.Set {
		return f.Grade >= t.FallbackFloor.V
	}
	return finished(t, f)
}

func finished(t *catalog.Target, c *Choice) bool {
	dull := t.Floor.Set && t.Floor.V > c.Grade
	stale := or(t.Fresh, false) && !c.Fresh
	if or(t.Redone, false) && !c.Redone {
		return false
	}
	return !dull && !stale && !(or(t.Lasting, false) && c.Growing)
}

func (r *Reader) banned(c *Choice) bool {
	for i := range r.st.Bans {
		if ban := &r.st.Bans[i]; (ban.Slot < 0 || ban.Slot == c.Slot) && picks(&ban.Filter, c) {
			return true
		}
	}
	return false
}

// picks says whether a filter picks a choice, its slot aside.
func picks(f *catalog.Filter, c *Choice) bool {
	other := f.Piece >= 0 && f.Piece != c.Piece || f.Plater >= 0 && f.Plater != c.Plater ||
		f.Work != "" && f.Work != c.Work || f.Level != "" && f.Level != c.Level
	return !other
}

// wasPicked says whether what hangs as it is was picked, and is done: it came back from the
// plater, or it was cleaned and hangs.
func (r *Reader) wasPicked(f *catalog.Filter, k *Choice) bool {
	piece, before := &r.st.Pieces[k.Piece], *k
	switch {
	case k.Work != catalog.WorkAsIs:
		return false
	case came(piece):
		before.Work, before.Plater, before.Level = piece.Sent.Work, piece.Sent.Plater, piece.Sent.Level
	case piece.Stage == catalog.StageHung && f.Work == catalog.WorkClean:
		before.Work = catalog.WorkClean
	}
	return picks(f, &before)
}

// inTime says whether a line keeps the date even if k fails. What takes no time is there.
func (r *Reader) inTime(k, f *Choice) bool {
	days := k.Days
	if k.Fails > 0 {
		if f != nil {
			days += f.Days
		} else {
			days += or(r.st.Slots[k.Slot].RescueDays, 0)
		}
	}
	if days > 0 {
		days += r.st.Job.Elapsed
	}
	return !r.st.Job.WithinDays.Set || days <= r.st.Job.WithinDays.V
}
