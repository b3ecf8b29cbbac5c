package plan

import (
	"strings"

	"brightset/catalog"
)

// What people read says names, with the id in brackets where it has to be typed.

// Called gives "Name (id)", or the id alone where there is no other name.
func Called(name, id string) string {
	if name == "" || name == id {
		return id
	}
	return name + " (" + id + ")"
}

// PieceCalled names a piece: "spare, lower post gone (crest-2)".
func PieceCalled(st *catalog.State, piece int) string {
	return Called(st.Pieces[piece].Name, st.PieceLabel(piece))
}

// PiecesCalled names pieces one after the other.
func PiecesCalled(st *catalog.State, pieces []int) string {
	var all []string
	for _, i := range pieces {
		all = append(all, PieceCalled(st, i))
	}
	return strings.Join(all, ", ")
}

// OfSlot names a piece by the slot that it is for, which is how it is known on the bench:
// "hood crest (crest-2)".
func OfSlot(st *catalog.State, slot, piece int) string {
	return Called(st.Slots[slot].Name, st.PieceLabel(piece))
}

// SlotCalled names a slot: "hood crest (crest)".
func SlotCalled(st *catalog.State, slot int) string {
	return Called(st.Slots[slot].Name, st.Slots[slot].ID)
}

// SlotNames lists slots by their names alone.
func SlotNames(st *catalog.State, slots []int) string {
	var all []string
	for _, s := range slots {
		all = append(all, st.Slots[s].Name)
	}
	return strings.Join(all, ", ")
}

// Told names a choice: the piece, what is done to it and by whom, and on which quote.
func Told(st *catalog.State, c *Choice) string {
	return PieceCalled(st, c.Piece) + ", " + WayOnQuote(st, c)
}

// WayOnQuote is the way of a choice, and that it is quoted: by its name where the same
// plater has given several quotes for one way.
func WayOnQuote(st *catalog.State, c *Choice) string {
	text := Way(st, c)
	if c.Quote == catalog.None {
		return text
	}
	quotes := st.Pieces[c.Piece].Quotes
	for i := range quotes {
		if q := &quotes[c.Quote]; i != c.Quote && quotes[i].Plater == q.Plater && quotes[i].Level == q.Level {
			return text + ", by his quote " + q.ID
		}
	}
	return text + ", by his quote"
}
