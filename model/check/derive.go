package check

import (
	"fmt"
	"slices"

	"brightset/catalog"
	"brightset/model/plan"
)

// doneTo is what is done to one piece, before it is multiplied by the number
// of pieces the slot needs.
type doneTo struct {
	work         string
	level        string
	plate, other catalog.Cents
	makers       catalog.Cents // of before and after, what makers charge
	before       catalog.Cents // works of others that are done before the plater has it
	after        catalog.Cents // works of others that are done when it is back; part of other in the end
	breaks       catalog.Micro
	lastBreaks   catalog.Micro // of breaks, what others do when it is back
	refused      catalog.Micro
	grade, tone  catalog.Centi
	fresh        bool
	redone       bool
	growing      bool
	weak         bool
	days         int // beyond the piece's own
	stripFee     catalog.Cents
	makersDays   int // part of days: the slowest maker's, before it goes
	makersAfter  int // part of days: the slowest maker's, when it is back
}

// Derive makes a choice again from its slot, piece, work, plater, level
// and quote alone. Where the state knows no such choice it gives nil, the rule
// broken and why.
func Derive(st *catalog.State, c *plan.Choice) (*plan.Choice, string, string) {
	if c.Slot < 0 || c.Slot >= len(st.Slots) {
		return nil, "slot", fmt.Sprintf("there is no slot number %d", c.Slot)
	}
	if c.Piece < 0 || c.Piece >= len(st.Pieces) {
		return nil, "piece", fmt.Sprintf("there is no piece number %d", c.Piece)
	}
	slot, piece := &st.Slots[c.Slot], &st.Pieces[c.Piece]
	fit := fitting(piece, c.Slot)
	if fit == nil && !slices.Contains(piece.Fits, c.Slot) {
		return nil, "fits", fmt.Sprintf("piece %q doesn't fit", piece.ID)
	}
	if piece.Quantity < slot.Quantity {
		return nil, "quantity", fmt.Sprintf("piece %q is there %d times, the slot needs %d", piece.ID, piece.Quantity,
			slot.Quantity)
	}
	if rule, why := stageAllows(st, piece, c); rule != "" {
		return nil, rule, why
	}
	one, rule, why := workDone(st, slot, piece, c)
	if one == nil {
		return nil, rule, why
	}
	if one.work == catalog.WorkReplate || one.work == catalog.WorkRepair {
		one.weak = weakened(st, piece, piece.Findings, one.work == catalog.WorkRepair)
	}
	if piece.Weak { // it was mended before, and nothing of that shows
		one.weak = true
	}
	if fit != nil && piece.Stage != catalog.StageHung { // once it hangs that is done
		one.other += catalog.Of(fit.Hours, st.Shop.Hourly.Or(0))
		one.breaks = catalog.Either(one.breaks, fit.Breakage)
		one.grade = min(one.grade, fit.Cap)
	}
	if c.Plater != catalog.None || platedBy(st, c) != catalog.None {
		one.redone = true
	}
	return multiplied(st, slot, piece, c, one), "", ""
}

// workDone sends a choice to the work it names.
func workDone(st *catalog.State, slot *catalog.Slot, piece *catalog.Piece,
	c *plan.Choice) (*doneTo, string, string) {
	switch c.Work {
	case catalog.WorkAsIs, catalog.WorkClean:
		if c.Plater != catalog.None || c.Level != "" || c.Quote != catalog.None {
			return nil, "work", fmt.Sprintf("%q names a plater, a level or a quote", c.Work)
		}
		if c.Work == catalog.WorkAsIs {
			return asIs(st, slot, piece)
		}
		return cleaned(st, slot, piece)
	case catalog.WorkReplate, catalog.WorkRepair:
		return plated(st, slot, piece, c)
	}
	return nil, "work", fmt.Sprintf("there is no work %q", c.Work)
}

// multiplied makes the choice for the n pieces the slot needs.
func multiplied(st *catalog.State, slot *catalog.Slot, piece *catalog.Piece, c *plan.Choice,
	one *doneTo) *plan.Choice {
	n := catalog.Cents(slot.Quantity)
	again := &plan.Choice{
		Slot: c.Slot, Piece: c.Piece, Work: one.work, Plater: c.Plater, Level: one.level, Quote: c.Quote,
		Sent: isAtPlater(piece),
		Get:  n * piece.Price, Give: n * piece.Value, Plate: n * one.plate, Before: n * one.before, Makers: n * one.makers,
		Other: n * one.other, Strip: n * one.stripFee,
		Breakage: repeated(one.breaks, slot.Quantity), Refused: repeated(one.refused, slot.Quantity),
		Chance: piece.Chance,
		Grade:  one.grade, Tone: one.tone, Fresh: one.fresh, Redone: one.redone, Growing: one.growing, Weak: one.weak,
		Days: arrival(st, piece) + one.days,
	}
	if again.Sent {
		again.Days = one.days // it has arrived, and has been sent on
	}
	again.Misfit, again.Back = misfit(st, piece, c.Slot)
	fits := catalog.Both(again.Chance, catalog.One-again.Misfit)
	again.Fails = catalog.One - catalog.Both(catalog.Both(fits, catalog.One-again.Refused), catalog.One-again.Breakage)
	again.ExpectedCost = catalog.Of(fits, again.Get+again.Give+again.Before+
		catalog.Of(again.Refused, again.Strip)+catalog.Of(catalog.One-again.Refused, again.Plate+again.Other)) +
		catalog.Of(again.Chance-fits, again.Back)
	again.Cash = again.Get + again.Before + again.Plate + again.Other
	again.Keep = ownWorth(slot, piece)
	again.Keeps = catalog.Of(catalog.One-again.Fails, again.Keep)
	return again
}

// misfit is the chance that a reproduction turns out not to fit, and the freight of
// sending it back to where it was bought singly. Who has tried it, knows its handwork, or
// has had it plated or hung, knows that it fits.
func misfit(st *catalog.State, piece *catalog.Piece, slot int) (chance catalog.Micro, back catalog.Cents) {
	switch {
	case piece.Kind != catalog.Reproduction, piece.Tried, slices.Contains(piece.Fitted, slot), fitting(piece, slot) != nil:
		return 0, 0
	case piece.Sent.Was, piece.Stage != catalog.StageSeen:
		return 0, 0
	}
	chance = st.Shop.Misfit.Or(0)
	if chance > 0 && piece.Bundle == catalog.None && piece.Vendor != catalog.None {
		back = st.Vendors[piece.Vendor].Freight
	}
	return chance, back
}

// repeated is the chance that something of chance p happens to at least one
// of n pieces.
func repeated(p catalog.Micro, n int) catalog.Micro {
	none := catalog.One
	for range n {
		none = catalog.Both(none, catalog.One-p)
	}
	return catalog.One - none
}

// arrival is how long it takes until the piece is on the bench.
func arrival(st *catalog.State, piece *catalog.Piece) int {
	if piece.Days.Set {
		return piece.Days.V
	}
	if piece.Bundle != catalog.None && st.Bundles[piece.Bundle].Days.Set {
		return st.Bundles[piece.Bundle].Days.V
	}
	vendor := piece.Vendor
	if piece.Bundle != catalog.None {
		vendor = st.Bundles[piece.Bundle].Vendor
	}
	if vendor != catalog.None {
		return st.Vendors[vendor].Days
	}
	return 0
}

// fitting is the handwork by which the piece fits the slot, nil for none.
func fitting(piece *catalog.Piece, slot int) *catalog.Fit {
	for i := range piece.Fit {
		if piece.Fit[i].Slot == slot {
			return &piece.Fit[i]
		}
	}
	return nil
}

// forMetal is the value for one metal, not set where the list is too short or
// the metal unknown.
func forMetal[T any](list []catalog.Val[T], metal int) catalog.Val[T] {
	if metal < 0 || metal >= len(list) {
		return catalog.Val[T]{}
	}
	return list[metal]
}
