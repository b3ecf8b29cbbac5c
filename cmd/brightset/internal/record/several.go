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
			single := *f
			single.Target = b.st.PieceLabel(i)
			if err := one(b, &single); err != nil {
				return err
			}
		}
		return nil
	}
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
