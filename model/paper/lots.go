package paper

import (
	"brightset/catalog"
	"brightset/model/choice"
	"brightset/model/plan"
)

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
func Lots(pl *plan.Plan) []Lot {
	var lots []Lot
	for q := range pl.Of.Platers {
		lot := Lot{Plater: q, Minimum: pl.Of.Platers[q].Minimum}
		for i := range pl.Lines {
			k := pl.Lines[i].Choice
			if k.Plater != q || !k.InLot() {
				continue
			}
			lot.Lines = append(lot.Lines, i)
			lot.Pieces += choice.Needed(&pl.Of.Slots[k.Slot])
			lot.Work += k.Plate
			lot.Days = max(lot.Days, k.Days)
		}
		if len(lot.Lines) == 0 {
			continue
		}
		lot.Shortfall = plan.ChargeOf(pl, plan.ChargeMinimum, q)
		lot.Freight = plan.ChargeOf(pl, plan.ChargePlaterFreight, q)
		lot.Total = lot.Work + lot.Shortfall + lot.Freight
		lots = append(lots, lot)
	}
	return lots
}
