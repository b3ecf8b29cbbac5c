package record

import (
	"fmt"
	"strings"
)

// each makes of an act on one piece one on several: what is said of them holds for each.
func each(one func(*builder, *Facts) error) func(*builder, *Facts) error {
	return func(b *builder, f *Facts) error {
		all, err := b.pieces(f.Target)
		if err != nil {
			return err
		}
		if len(all) > 1 {
			if err := oneByOne(f); err != nil {
				return err
			}
		}
		for _, i := range all {
			single := f.of(b.st.Pieces[i].Key())
			single.Target = b.st.PieceLabel(i)
			if err := one(b, &single); err != nil {
				return err
			}
		}
		return nil
	}
}

// of is what was said of one of several pieces, by its key: for all of them, unless otherwise
// for this one.
func (f *Facts) of(key string) Facts {
	single := *f
	for i := range f.Each {
		if f.Each[i].Target != key {
			continue
		}
		own := &f.Each[i]
		for _, one := range []struct{ to, from *string }{{&single.Work, &own.Work}, {&single.Level, &own.Level},
			{&single.Slot, &own.Slot}, {&single.Cost, &own.Cost}, {&single.Count, &own.Count}, {&single.Grade, &own.Grade}} {
			if *one.from != "" {
				*one.to = *one.from
			}
		}
	}
	return single
}

// oneByOne refuses what can't hold for each of several pieces: a number out of a bag, and
// sums that may be meant for all of them together.
func oneByOne(f *Facts) error {
	said := flags("count", f.Count, "credit", f.Credit, "price", f.Price, "slot", f.Slot)
	if said == "" {
		return nil
	}
	return fmt.Errorf("%s is for one piece, and %q are several; record each by itself", said, f.Target)
}

// several are the pieces of an act as they were typed, where they are more than one.
func several(f *Facts) bool { return strings.Contains(f.Target, ",") }
