package choice

import (
	"fmt"
	"slices"

	"brightset/catalog"
	"brightset/model/plan"
)

// Unlike says what keeps two bags from being put together, "" where nothing does: they are of
// one kind and one metal, whoever's they are is the same, both are here and not on their way,
// and what is in the second fits wherever the first does, and as it does. That screws have the
// same head and thread nobody can tell but who holds them in his hand.
func Unlike(st *catalog.State, first, second int) string {
	a, b := &st.Pieces[first], &st.Pieces[second]
	name := plan.PieceName(st, second)
	switch {
	case first == second:
		return "it is the same bag"
	case a.Kind != b.Kind:
		return fmt.Sprintf("%s is %s, and this is %s", name, b.Kind, a.Kind)
	case a.Metal != b.Metal:
		return name + " is of another metal"
	case a.Side != b.Side || a.InShop != b.InShop || a.Bundle != b.Bundle || a.Vendor != b.Vendor:
		return name + " is somebody else's: buy it first"
	case a.Side == catalog.Vendors:
		return "they are not bought yet"
	case a.Off != b.Off:
		return "one of them came off the object, and the other did not"
	case !onBench(a) || !onBench(b):
		return "both have to be here, with nothing done to them yet"
	}
	_, known := AsIsGrade(st, first)
	if _, too := AsIsGrade(st, second); known != too {
		return "nobody has looked at one of them closely yet: give a grade or what is found"
	}
	for _, slot := range a.Fits {
		x, y := Fitting(a, slot), Fitting(b, slot)
		if !FitsSlot(b, slot) || (x == nil) != (y == nil) ||
			x != nil && (x.Hours != y.Hours || x.Breakage != y.Breakage || x.Cap != y.Cap) {
			return fmt.Sprintf("%s does not fit %s as this does", name, st.Slots[slot].Name)
		}
		if !Untried(a, slot) && Untried(b, slot) {
			return fmt.Sprintf("nobody has tried %s in %s yet", name, st.Slots[slot].Name)
		}
	}
	return ""
}

// onBench says whether a piece lies on the bench as it was found.
func onBench(p *catalog.Piece) bool {
	done := slices.ContainsFunc(p.Findings, func(f catalog.Finding) bool { return len(f.Done) > 0 })
	return !done && p.Stage == catalog.StageSeen && !p.Sent.Was && !p.Elsewhere && !p.Gone() && p.Chance >= catalog.One &&
		p.Days.Or(0) == 0
}

// MadeUp finds a bag that would make up another to what a slot needs, each of them too small for
// it, and says how many are missing; catalog.None where there is none.
func MadeUp(st *catalog.State, slot, piece int) (other, missing int) {
	missing = Needed(&st.Slots[slot]) - PieceCount(&st.Pieces[piece])
	if missing <= 0 || !slices.Contains(st.Pieces[piece].Fits, slot) {
		return catalog.None, missing
	}
	for i := range st.Pieces {
		n := PieceCount(&st.Pieces[i])
		if n >= missing && n < missing+PieceCount(&st.Pieces[piece]) && Unlike(st, piece, i) == "" {
			return i, missing
		}
	}
	return catalog.None, missing
}

// TwoBags finds two bags on the bench that would fill a slot for which something is still to
// be bought, or takes work: all of the larger, and how many of the other it lacks. None is
// catalog.None.
func TwoBags(st *catalog.State, c *plan.Choice) (largest, with, lacks int) {
	largest, with = catalog.None, catalog.None
	if Needed(&st.Slots[c.Slot]) == 1 || st.Pieces[c.Piece].Side != catalog.Vendors && c.ExpectedCost == 0 {
		return largest, with, 0
	}
	for i := range st.Pieces {
		if largest != catalog.None && PieceCount(&st.Pieces[i]) <= PieceCount(&st.Pieces[largest]) {
			continue
		}
		if other, missing := MadeUp(st, c.Slot, i); other != catalog.None {
			largest, with, lacks = i, other, missing
		}
	}
	return largest, with, lacks
}

// tooFew says that a bag is too small for a slot, and which other would make it up.
func tooFew(st *catalog.State, slot, piece, n int) string {
	text := fmt.Sprintf("there are only %d, the slot needs %d", PieceCount(&st.Pieces[piece]), n)
	if PieceCount(&st.Pieces[piece]) == 1 {
		text = fmt.Sprintf("there is only one, the slot needs %d", n)
	}
	if other, missing := MadeUp(st, slot, piece); other != catalog.None {
		text += fmt.Sprintf("; %d of %s would make it up: where they match, put them together (record joined)", missing,
			plan.PieceName(st, other))
	}
	return text
}
