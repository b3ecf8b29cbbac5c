package record

import (
	"fmt"
	"slices"
	"strings"

	"brightset/catalog"
	"brightset/catalog/event"
	"brightset/model/choice"
	"brightset/model/plan"
)

func (b *builder) hung(f *Facts) error {
	i, err := b.here(f.Target)
	if err != nil {
		return err
	}
	p := &b.st.Pieces[i]
	switch {
	case p.AtPlater():
		return fmt.Errorf("%s is at %s; when it is back type: brightset record back %s", b.name(i),
			b.st.Platers[p.Sent.Plater].ID, b.typed(i))
	case p.Bare():
		return fmt.Errorf("%s is stripped: it can't hang like that", b.name(i))
	case !p.Grade.Set && len(p.Findings) == 0 && f.Grade == "":
		return fmt.Errorf("%s has no grade; say how it looks: --grade 85", b.name(i))
	}
	slot, err := b.hangsIn(i, f)
	if err != nil {
		return err
	}
	if err := b.canHang(i, slot); err != nil {
		return err
	}
	b.agreed(&plan.Choice{Slot: slot, Piece: i, Work: catalog.WorkAsIs, Plater: catalog.None, Quote: catalog.None})
	if rest := b.restOf(i); rest != catalog.None && p.Stage == catalog.StageHung && p.HungIn != slot {
		return fmt.Errorf("%s hangs in %s; what was left of the bag is called %s: brightset record hung %s --slot %s",
			b.name(i), b.st.Slots[p.HungIn].ID, b.name(rest), b.name(rest), b.st.Slots[slot].ID)
	}
	b.hangs[slot] = i
	b.split(i, b.st.Slots[slot].Quantity, slot)
	b.setPiece(i, event.KeyStage, catalog.StageHung.String())
	b.setPiece(i, event.KeyHungIn, b.st.Slots[slot].ID)
	grade := value(f.Grade)
	if c := b.asIs(i, slot); c != nil && p.Stage != catalog.StageHung && len(c.Parts) > 0 {
		b.finished(c)
		if f.Grade == "" {
			grade = value(catalog.FormatCenti(c.Grade)) // handwork leaves no more than that
		}
	}
	b.setPiece(i, event.KeyGrade, grade)
	b.taken(i)
	return nil
}

// keptFor are the slots for which the plan that was kept hangs a piece.
func (b *builder) keptFor(i int) (slots []int) {
	if b.st.Kept == nil {
		return nil
	}
	for _, l := range b.st.Kept.Lines {
		s, ok := b.st.SlotIndex(l.Slot)
		if ok && l.Piece == b.st.Pieces[i].Key() && slices.Contains(b.st.Pieces[i].Fits, s) {
			slots = append(slots, s)
		}
	}
	return slots
}

// hangsIn is the slot in which a piece is said to hang, else where the plan that was kept
// has it, else the only one it fits.
func (b *builder) hangsIn(i int, f *Facts) (int, error) {
	if f.Slot != "" {
		return b.slot(f.Slot)
	}
	fits := b.st.Pieces[i].Fits
	if kept := b.keptFor(i); len(kept) == 1 {
		return kept[0], nil
	}
	if len(fits) != 1 {
		return 0, fmt.Errorf("%s fits more than one slot; say where it hangs: --slot %s", b.name(i), b.st.Slots[fits[0]].ID)
	}
	return fits[0], nil
}

// asIs is the choice of hanging a piece in a slot as it is, whether or not it should with
// what was found on it: somebody did. nil where there is none.
func (b *builder) asIs(i, slot int) *plan.Choice {
	st := b.st.Clone()
	for k := range st.Pieces[i].Findings {
		st.Pieces[i].Findings[k].Harmless = catalog.Val[bool]{V: true, Set: true}
	}
	all := choice.ChoicesFor(st, slot)
	for k := range all {
		if c := &all[k]; c.Piece == i && c.Work == catalog.WorkAsIs {
			return c
		}
	}
	return nil
}

// canHang makes sure that a piece fits a slot in which nothing else hangs.
func (b *builder) canHang(i, s int) error {
	slot := b.st.Slots[s].ID
	if !slices.Contains(b.st.Pieces[i].Fits, s) {
		return b.fitsNot(i, s)
	}
	if k, taken := b.hangs[s]; taken {
		return fmt.Errorf("%s and %s can't both hang in %s; leave one of them out", b.name(k), b.name(i), slot)
	}
	for k := range b.st.Pieces {
		if p := &b.st.Pieces[k]; k != i && p.Stage == catalog.StageHung && p.HungIn == s && !p.Gone() {
			return fmt.Errorf("%s hangs in %s; if it was taken down, first type: brightset record unhung %s", b.name(k), slot,
				b.typed(k))
		}
	}
	return nil
}

// fitsNot says that a piece doesn't fit a slot, and which ones it does.
func (b *builder) fitsNot(i, s int) error {
	var fits []string
	for _, k := range b.st.Pieces[i].Fits {
		fits = append(fits, b.st.Slots[k].ID)
	}
	return fmt.Errorf("%s doesn't fit %s; it fits %s", b.name(i), b.st.Slots[s].ID, strings.Join(fits, ", "))
}

// unhung: it is on the bench again.
func (b *builder) unhung(f *Facts) error {
	i, err := b.here(f.Target)
	if err != nil {
		return err
	}
	if b.st.Pieces[i].Stage != catalog.StageHung {
		return fmt.Errorf("%s doesn't hang: it is %s", b.name(i), b.st.Pieces[i].Stage)
	}
	b.down(i)
	return nil
}

// down takes a piece off the object.
func (b *builder) down(i int) {
	b.setPiece(i, event.KeyHungIn, nil)
	if b.st.Pieces[i].Sent.Was {
		b.setPiece(i, event.KeyStage, catalog.StageBack.String())
	} else {
		b.setPiece(i, event.KeyStage, catalog.StageSeen.String())
	}
}
