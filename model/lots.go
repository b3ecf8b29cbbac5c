package model

import "brightset/catalog"

// Lot is all the pieces that a plan sends to one plater.
type Lot struct {
	Plater    int
	Lines     []int         // indices into the plan's lines
	Pieces    int           // how many pieces that is
	Work      catalog.Cents // the plater's part
	Minimum   catalog.Cents // his least charge for a lot
	Shortfall catalog.Cents // charged on top because the work is below it
	Freight   catalog.Cents
	Total     catalog.Cents // work, shortfall and freight
	Days      int           // the longest of its pieces
}

// Lots gives what has yet to go to each plater, in the state's order of platers.
func Lots(st *catalog.State, plan *Plan) []Lot {
	var lots []Lot
	for q := range st.Platers {
		lot := Lot{Plater: q, Minimum: st.Platers[q].Minimum}
		for i := range plan.Lines {
			k := plan.Lines[i].Choice
			if k.Plater != q || !k.InLot() {
				continue
			}
			lot.Lines = append(lot.Lines, i)
			lot.Pieces += needed(&st.Slots[k.Slot])
			lot.Work += k.Plate
			lot.Days = max(lot.Days, k.Days)
		}
		if len(lot.Lines) == 0 {
			continue
		}
		lot.Shortfall = chargeOf(plan, ChargeMinimum, q)
		lot.Freight = chargeOf(plan, ChargePlaterFreight, q)
		lot.Total = lot.Work + lot.Shortfall + lot.Freight
		lots = append(lots, lot)
	}
	return lots
}

func chargeOf(plan *Plan, kind ChargeKind, of int) catalog.Cents {
	sum := catalog.Cents(0)
	for _, c := range plan.Charges {
		if c.Kind == kind && c.Of == of {
			sum += c.Cents
		}
	}
	return sum
}
