package paper

import (
	"slices"

	"brightset/catalog"
	"brightset/model/choice"
)

// Behind is a piece that the plan that was kept sends together with another, which it has to
// match, and that did not go when the other went.
type Behind struct {
	Piece, Went int
	Plater      int
	Drift       catalog.Centi // by how much more their tones may differ
	Parted      bool          // by more than the two may: only one lot is sure to match
}

// LeftBehind says what stayed when pieces went to their platers, in the order of the kept
// plan; nothing where none was kept.
func LeftBehind(st *catalog.State, went []int) (all []Behind) {
	if st.Kept == nil {
		return nil
	}
	for i := range st.Kept.Lines {
		left := keptToGo(st, &st.Kept.Lines[i])
		if left == nil {
			continue
		}
		for m := range st.Matches {
			match := &st.Matches[m]
			if !slices.Contains(match.Slots, left.slot) {
				continue
			}
			for _, w := range went {
				other := keptSlot(st, w)
				if !slices.Contains(match.Slots, other) || st.Pieces[w].Sent.Plater != left.plater {
					continue
				}
				b := Behind{Piece: left.piece, Went: w, Plater: left.plater, Drift: st.Platers[left.plater].Drift}
				off := left.tone - st.Pieces[w].Sent.Tone.Or(0)
				b.Parted = match.ToneWithin.Set && max(off, -off)+b.Drift > match.ToneWithin.V
				if !slices.ContainsFunc(all, func(x Behind) bool { return x.Piece == b.Piece }) {
					all = append(all, b)
				}
			}
		}
	}
	return all
}

// toGo is what a line of the kept plan has still to send.
type toGo struct {
	slot, piece, plater int
	tone                catalog.Centi
	plate               catalog.Cents
}

func keptToGo(st *catalog.State, l *catalog.KeptLine) *toGo {
	slot := slices.IndexFunc(st.Slots, func(s catalog.Slot) bool { return s.ID == l.Slot })
	piece, known := st.FindPiece(l.Piece)
	if slot < 0 || !known || l.Plater == "" || st.Pieces[piece].Sent.Was || st.Pieces[piece].Gone() {
		return nil
	}
	all := choice.ChoicesFor(st, slot)
	for i := range all {
		c := &all[i]
		if c.Piece == piece && c.InLot() && st.Platers[c.Plater].ID == l.Plater && c.Level == l.Level && c.Work == l.Work {
			return &toGo{slot, piece, c.Plater, c.Tone, c.Plate}
		}
	}
	return nil
}

// keptSlot is the slot that the kept plan has a piece for, catalog.None where it has none.
func keptSlot(st *catalog.State, piece int) int {
	for i := range st.Kept.Lines {
		if l := &st.Kept.Lines[i]; l.Piece == st.Pieces[piece].Key() {
			return slices.IndexFunc(st.Slots, func(s catalog.Slot) bool { return s.ID == l.Slot })
		}
	}
	return catalog.None
}

// Short is a lot that went with less than the plan that was kept sends in it, and that was
// paid for up to its plater's least lot.
type Short struct {
	Plater int
	Pieces []int         // that the kept plan sends too
	Saved  catalog.Cents // of what was paid up to the least lot, what their work makes up for
}

// ShortLots are those of the lots that some pieces went with, in the order of the platers;
// none where no plan was kept.
func ShortLots(st *catalog.State, went []int) (all []Short) {
	if st.Kept == nil {
		return nil
	}
	for q := range st.Platers {
		at := slices.IndexFunc(went, func(i int) bool { return st.Pieces[i].Sent.Plater == q })
		if at < 0 {
			continue
		}
		missing, short := st.Platers[q].Minimum, Short{Plater: q}
		for i := range st.Pieces {
			if s := &st.Pieces[i].Sent; s.Was && s.Plater == q && s.Lot == st.Pieces[went[at]].Sent.Lot {
				missing -= s.Cost * catalog.Cents(s.Count)
			}
		}
		for i := range st.Kept.Lines {
			if left := keptToGo(st, &st.Kept.Lines[i]); left != nil && left.plater == q {
				short.Pieces, short.Saved = append(short.Pieces, left.piece), short.Saved+left.plate
			}
		}
		if short.Saved = min(short.Saved, missing); short.Saved > 0 {
			all = append(all, short)
		}
	}
	return all
}
