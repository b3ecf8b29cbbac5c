package record

import (
	"fmt"
	"slices"

	"brightset/catalog/event"
)

// fitted notes in which slot a piece was tried on; what was noted of others stays.
func (b *builder) fitted(f *Facts) error {
	all, err := b.allHere(f.Target)
	for _, i := range all {
		if err == nil {
			err = b.fittedIn(i, f)
		}
	}
	return err
}

func (b *builder) fittedIn(i int, f *Facts) error {
	p := &b.st.Pieces[i]
	tried := b.keptFor(i) // a bag in all slots that the plan has it for
	switch {
	case f.Slot != "":
		s, err := b.slot(f.Slot)
		if err != nil {
			return err
		}
		if !slices.Contains(p.Fits, s) {
			return b.fitsNot(i, s)
		}
		tried = []int{s}
	case len(p.Fits) == 1:
		tried = p.Fits
	case len(tried) == 0:
		return fmt.Errorf("%s fits more than one slot; say in which it was tried: --slot %s", b.name(i),
			b.st.Slots[p.Fits[0]].ID)
	}
	shop, target := b.of(i)
	was := b.d.Value(shop, target, event.KeyFitted)
	if was == true { // in all that it fits
		b.setPiece(i, event.KeyFitted, was)
		return nil
	}
	names, _ := was.([]any) // a piece of the shop's may have been tried on other objects
	names = slices.Clone(names)
	for _, s := range tried {
		if !p.FittedIn(s) {
			names = append(names, b.st.Slots[s].ID)
		}
	}
	b.setPiece(i, event.KeyFitted, names)
	return nil
}
