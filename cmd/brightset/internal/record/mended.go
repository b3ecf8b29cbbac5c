package record

import (
	"slices"

	"brightset/catalog"
	"brightset/catalog/event"
	"brightset/model/choice"
	"brightset/model/plan"
)

// mended clears what was found on a piece that is back, but for what its plater did not do:
// works on the finished piece that wait for others, and, where he was to plate it and no
// more, faults of shape, fastening and strength. What he was told of later he has mended.
func (b *builder) mended(i int, sent *catalog.Sent) {
	p := &b.st.Pieces[i]
	waits := choice.Outstanding(b.st, p)
	for k := range p.Findings {
		f := &p.Findings[k]
		mend := b.st.Tables.Mending(f, p.Metal)
		shop, target := b.below(i, event.TableFinding, f.ID)
		switch {
		case sent.Work == catalog.WorkReplate && sent.Knows(f) && choice.LeftByReplating(b.st, p, f):
		case slices.ContainsFunc(mend, func(w int) bool { return slices.Contains(waits, w) && !slices.Contains(f.Done, w) }):
			done := slices.DeleteFunc(slices.Clone(mend), func(w int) bool { return slices.Contains(waits, w) })
			b.works(shop, target, event.KeyDone, done)
		default:
			b.clear(shop, target)
		}
	}
	if len(waits) > 0 {
		shop, target := b.below(i, event.TableSent)
		b.works(shop, target, event.KeyAfter, waits)
	}
}

// finished spends what is done to a piece before it hangs, and clears what was found that is
// dealt with by it: works on the finished piece, and handwork to make it fit.
func (b *builder) finished(c *plan.Choice) {
	i, slot := c.Piece, b.st.Slots[c.Slot].ID
	p := &b.st.Pieces[i]
	fitting := catalog.Cents(0)
	for _, part := range c.Parts {
		if part.Work == catalog.None {
			fitting += part.Cost
		}
	}
	b.spendAs(catalog.BearsNone, fitting, i, "fitting %s in %s", b.name(i), slot)
	b.spendAs(catalog.BearsNone, c.Other-c.Makers-fitting, i, "work on %s since it was plated", b.name(i))
	b.spendAs(catalog.BearsPlating, c.Makers, i, "work on %s since it was plated", b.name(i))
	waits := choice.Outstanding(b.st, p)
	for k := range p.Findings {
		if choice.FinishedBy(b.st, p, &p.Findings[k], waits) {
			b.clear(b.below(i, event.TableFinding, p.Findings[k].ID))
		}
	}
}
