package paper

import (
	"slices"

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
			lot.take(pl, i)
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

// take puts a line into a lot.
func (lot *Lot) take(pl *plan.Plan, line int) {
	k := pl.Lines[line].Choice
	lot.Lines = append(lot.Lines, line)
	lot.Pieces += choice.Needed(&pl.Of.Slots[k.Slot])
	lot.Work += k.Plate
	lot.Days = max(lot.Days, k.Days)
}

// OpenLot is a lot that went to a plater on the day where the job stands. What is sent him
// the same day goes with it, and what is charged for a lot of its own is saved.
type OpenLot struct {
	Plater int
	Name   string        // of the lot that went
	Saved  catalog.Cents // freight, and what the lot still to go lacks of his least charge
}

// OpenLots are those to which the plan would send more. The plan charges a lot of its own:
// what is packed can't be known here, and a sum that is only saved if it is done today is
// none to count on.
func OpenLots(pl *plan.Plan) []OpenLot {
	var open []OpenLot
	for _, lot := range Lots(pl) {
		i := slices.IndexFunc(pl.Of.Pieces, func(x catalog.Piece) bool {
			return x.AtPlater() && x.Sent.Plater == lot.Plater && x.Sent.On.Set && x.Sent.On.V.Equal(pl.Of.Job.AsOf)
		})
		if saved := lot.Freight + lot.Shortfall; i >= 0 && saved != 0 {
			open = append(open, OpenLot{Plater: lot.Plater, Name: pl.Of.Pieces[i].Sent.Lot, Saved: saved})
		}
	}
	return open
}
