package catalog

import (
	"slices"
	"strings"

	"brightset/catalog/event"
	"brightset/catalog/journal"
)

// News is what an entry of the journal means for money and for pieces: the state with it
// compared with the one before.
type News struct {
	Cents    Cents // spent by it; below zero: less is spent than before
	Spent    []Spent
	Joined   []JoinedLot // in the order of the pieces that went
	Pieces   []PieceNews // in the state's order
	Warnings []Warning
}

// JoinedLot is a lot that went to a plater already and that more was sent with.
type JoinedLot struct {
	Plater int
	Lot    string
	With   []int // pieces of the state before that were in it
}

// PieceNews is a piece that is further than it was, or elsewhere, or what is left of a bag
// under a name of its own.
type PieceNews struct {
	Piece int
	Was   *Piece // in the state before; the bag, where the piece is the rest of one
	Rest  bool
}

// NewsOf compares a state with the one before an entry.
func NewsOf(before, st *State, entry int) News {
	n := News{Cents: st.Job.SpentSum - before.Job.SpentSum, Joined: joinedLots(before, st, entry)}
	for _, s := range st.Job.Spent {
		if !slices.ContainsFunc(before.Job.Spent, func(o Spent) bool { return o.ID == s.ID }) {
			n.Spent = append(n.Spent, s)
		}
	}
	for i := range st.Pieces {
		p := &st.Pieces[i]
		if j, ok := before.FindPiece(p.Key()); !ok {
			if bag := bagOf(before, st, p); bag != nil {
				n.Pieces = append(n.Pieces, PieceNews{i, bag, true})
			}
		} else if was := &before.Pieces[j]; movedOn(was, p) {
			n.Pieces = append(n.Pieces, PieceNews{i, was, false})
		}
	}
	for _, w := range st.Warnings {
		if !slices.ContainsFunc(before.Warnings, func(o Warning) bool { return o.Message == w.Message }) {
			n.Warnings = append(n.Warnings, w)
		}
	}
	return n
}

// joinedLots are the lots that pieces were sent with by an entry.
func joinedLots(before, st *State, entry int) (all []JoinedLot) {
	sent := func(e journal.Entry) bool { return e.Seq == entry && e.Action == event.Sent }
	if st.Record == nil || !slices.ContainsFunc(st.Record.Entries, sent) {
		return nil
	}
	for i := range st.Pieces {
		p := &st.Pieces[i]
		j, ok := before.FindPiece(p.Key())
		told := func(o JoinedLot) bool { return o.Lot == p.Sent.Lot }
		if !p.AtPlater() || ok && before.Pieces[j].AtPlater() || slices.ContainsFunc(all, told) {
			continue
		}
		one := JoinedLot{Plater: p.Sent.Plater, Lot: p.Sent.Lot}
		for k := range before.Pieces {
			if was := &before.Pieces[k]; was.AtPlater() && was.Sent.Lot == one.Lot && one.Lot != "" {
				one.With = append(one.With, k)
			}
		}
		if len(one.With) > 0 {
			all = append(all, one)
		}
	}
	return all
}

// movedOn says whether a piece is further than it was, or elsewhere.
func movedOn(was, p *Piece) bool {
	return was.Stage != p.Stage || was.AtPlater() != p.AtPlater() || was.HungIn != p.HungIn
}

// bagOf is the bag that a piece that is new is what is left of; nil if of none.
func bagOf(before, st *State, rest *Piece) *Piece {
	for j := range before.Pieces {
		was := &before.Pieces[j]
		now, ok := st.FindPiece(was.Key())
		if ok && was.InShop == rest.InShop && strings.HasPrefix(rest.ID, was.ID+"-") &&
			was.Quantity == st.Pieces[now].Quantity+rest.Quantity {
			return was
		}
	}
	return nil
}
