package plan

import (
	"cmp"
	"slices"

	"brightset/catalog"
)

// CauseKind says where a difference between two plans comes from.
type CauseKind string

const (
	CausePrice  CauseKind = "price"  // what the slot's pieces cost to have, or would fetch
	CauseWork   CauseKind = "work"   // what is done to them
	CauseRisk   CauseKind = "risk"   // what failing costs on average
	CauseCharge CauseKind = "charge" // a freight, a least lot, a bundle, a trade
	CauseOther  CauseKind = "other"  // another slot is filled differently
)

// Cause is one part of the difference in total between two plans.
type Cause struct {
	Kind   CauseKind
	Slot   int    // of CauseOther; else the slot asked about
	Charge Charge // of CauseCharge: kind and of; its cents are those of now less those of was
	Cents  catalog.Cents
	Now    *Line // of CauseOther: how the slot is filled instead
}

// Causes takes the difference in total between two plans apart, seen from one
// slot. The parts add up to it; the biggest come first, of equal ones in the order
// of the slots and charges.
func Causes(slot int, was, now *Plan) []Cause {
	var all []Cause
	for i := range was.Lines {
		a, b := &was.Lines[i], &now.Lines[i]
		if a.Slot != slot {
			all = append(all, Cause{Kind: CauseOther, Slot: a.Slot, Cents: b.Expected - a.Expected, Now: b})
			continue
		}
		p, q := linePrice(a), linePrice(b)
		v, w := lineWork(a), lineWork(b)
		all = append(all,
			Cause{Kind: CausePrice, Slot: slot, Cents: q - p},
			Cause{Kind: CauseWork, Slot: slot, Cents: w - v},
			Cause{Kind: CauseRisk, Slot: slot, Cents: (b.Expected - q - w) - (a.Expected - p - v)})
	}
	all = append(all, chargeCauses(slot, was, now)...)
	all = slices.DeleteFunc(all, func(c Cause) bool { return c.Cents == 0 })
	slices.SortStableFunc(all, func(a, b Cause) int { return cmp.Compare(Abs(b.Cents), Abs(a.Cents)) })
	return all
}

func linePrice(l *Line) catalog.Cents { return l.Choice.Get + l.Choice.Give }

func lineWork(l *Line) catalog.Cents { return l.Choice.Before + l.Choice.Plate + l.Choice.Other }

// Abs is how far a figure is from nothing.
func Abs[T ~int64](v T) T { return max(v, -v) }

// chargeCauses compares the charges of two plans, those of was first.
func chargeCauses(slot int, was, now *Plan) []Cause {
	var all []Cause
	sum := func(charges []Charge, sign catalog.Cents) {
		for _, c := range charges {
			at := slices.IndexFunc(all, func(k Cause) bool { return k.Charge.Kind == c.Kind && k.Charge.Of == c.Of })
			if at < 0 {
				at = len(all)
				all = append(all, Cause{Kind: CauseCharge, Slot: slot, Charge: Charge{Kind: c.Kind, Of: c.Of}})
			}
			all[at].Cents += sign * c.Cents
			all[at].Charge.Cents = all[at].Cents
		}
	}
	sum(was.Charges, -1)
	sum(now.Charges, 1)
	return all
}
