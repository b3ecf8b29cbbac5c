package report

import (
	"slices"

	"brightset/catalog"
	"brightset/model/plan"
)

// BenchLot is pieces that go to one plater together, or are with him in one lot.
type BenchLot struct {
	Plater, Name string
	Lot          string // "" of what is still to go
	Pieces       []BenchLotPiece
}

// BenchLotPiece is one of them.
type BenchLotPiece struct {
	Key, Name, Slot   string
	Way, Cost, Stage  string
	SlotID            string
	Level, Work       string
	Quantity          int
	Stripped, Settled bool
}

// ToSend are the pieces that the plan sends and that lie on the bench, by plater.
func ToSend(p *plan.Plan) []BenchLot {
	var all []BenchLot
	if !p.Has {
		return nil
	}
	for s := range p.Lines {
		c := p.Lines[s].Choice
		piece := p.PieceOf(c)
		if !c.Plated() || piece.AtPlater() || piece.Gone() || piece.Stage == catalog.StageHung ||
			piece.Chance < catalog.One || piece.Side == catalog.Vendors || piece.Elsewhere {
			continue
		}
		one := BenchLotPiece{Key: piece.Key(), Name: plan.PieceCalled(p.Of, c.Piece), Slot: p.Of.Slots[s].Name,
			SlotID: p.Of.Slots[s].ID, Way: plan.Way(p.Of, c), Cost: catalog.FormatMoney(c.Cash), Level: c.Level, Work: c.Work,
			Stage: stageText(p.Of, piece), Quantity: piece.Quantity}
		all = intoLot(all, p.PlaterOf(c), "", one)
	}
	return all
}

// AtPlaters are the pieces that are with platers, by lot.
func AtPlaters(st *catalog.State) []BenchLot {
	var all []BenchLot
	for i := range st.Pieces {
		p := &st.Pieces[i]
		if !p.AtPlater() || p.Elsewhere {
			continue
		}
		one := BenchLotPiece{Key: p.Key(), Name: plan.PieceCalled(st, i), Way: p.Sent.Work, Level: p.Sent.Level,
			Cost: catalog.FormatMoney(p.Sent.Cost), Stage: stageText(st, p), Quantity: p.Quantity,
			Stripped: p.Stage >= catalog.StageStripped, Settled: p.Stage >= catalog.StageApproved}
		all = intoLot(all, &st.Platers[p.Sent.Plater], p.Sent.Lot, one)
	}
	return all
}

func intoLot(all []BenchLot, q *catalog.Plater, lot string, one BenchLotPiece) []BenchLot {
	i := slices.IndexFunc(all, func(l BenchLot) bool { return l.Plater == q.ID && l.Lot == lot })
	if i < 0 {
		i, all = len(all), append(all, BenchLot{Plater: q.ID, Name: q.Name, Lot: lot})
	}
	all[i].Pieces = append(all[i].Pieces, one)
	return all
}
