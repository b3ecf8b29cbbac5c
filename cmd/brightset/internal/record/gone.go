package record

import (
	"fmt"
	"strconv"

	"brightset/catalog"
	"brightset/catalog/event"
)

// count is how many of a bag are meant: all where nothing is said.
func (b *builder) count(i int, f *Facts) (int, error) {
	p := &b.st.Pieces[i]
	if f.Count == "" {
		return p.Quantity, nil
	}
	n, err := strconv.Atoi(f.Count)
	if err != nil || n < 1 || n > p.Quantity {
		if p.Quantity == 1 {
			return 0, fmt.Errorf("--count %q: there is one %s; leave --count out", f.Count, b.name(i))
		}
		return 0, fmt.Errorf("--count %q: there are %d of %s; write a number from 1 to %d", f.Count, p.Quantity, b.name(i),
			p.Quantity)
	}
	return n, nil
}

// gone builds the action by which pieces go out of the job's hands.
func gone(stage catalog.Stage) func(*builder, *Facts) error {
	return func(b *builder, f *Facts) error {
		i, err := b.here(f.Target)
		if err != nil {
			return err
		}
		n, err := b.count(i, f)
		if err != nil {
			return err
		}
		if f.Credit != "" {
			credit, err := money("credit", f.Credit)
			if err != nil {
				return err
			}
			b.spendAs(catalog.BearsNone, -credit, i, "sold %s", b.name(i))
		}
		if stage == catalog.StageSold {
			b.wantedStill(i)
		} else {
			b.usedUp(i, n)
		}
		p := &b.st.Pieces[i]
		if n < p.Quantity {
			b.fewer(i, p.Quantity-n)
			return nil
		}
		b.setPiece(i, event.KeyStage, stage.String())
		if p.Stage == catalog.StageHung {
			b.setPiece(i, event.KeyHungIn, nil)
		}
		return nil
	}
}

// usedUp books what pieces cost that are not the customer's, and not paid for yet, and that are no more
// after work on them for the job was begun: the plan reckoned with that whether they come through or not.
func (b *builder) usedUp(i, n int) {
	p := &b.st.Pieces[i]
	if p.Side != catalog.Customers && (p.Stage != catalog.StageSeen || p.AtPlater()) {
		b.spendAs(catalog.BearsParts, p.Price*catalog.Cents(n), i, "%s, used up", b.many(n, i))
	}
}

// fewer leaves so many in a bag. What hangs and is not enough for its slot any more is on
// the bench again; of those at a plater's no more are there than there are.
func (b *builder) fewer(i, left int) {
	p := &b.st.Pieces[i]
	b.setPiece(i, event.KeyQuantity, int64(left))
	if p.AtPlater() && p.Sent.Count > left {
		shop, target := b.below(i, event.TableSent)
		b.set(shop, target, event.KeyCount, int64(left))
	}
	if p.Stage != catalog.StageHung || left >= b.st.Slots[p.HungIn].Quantity {
		return
	}
	b.down(i)
}
