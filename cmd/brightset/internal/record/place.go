package record

import (
	"fmt"

	"brightset/catalog"
	"brightset/model"
)

func (b *builder) hung(f *Facts) error {
	i, err := b.here(f.Target)
	if err != nil {
		return err
	}
	p := &b.st.Pieces[i]
	switch {
	case p.AtPlater():
		return fmt.Errorf("%s is at %s; when it is back type: brightset record back %s", b.name(i), b.st.Platers[p.Sent.Plater].ID, b.name(i))
	case p.Bare():
		return fmt.Errorf("%s is stripped: it can't hang like that", b.name(i))
	case !p.Grade.Set && len(p.Findings) == 0 && f.Grade == "":
		return fmt.Errorf("%s has no grade; say how it looks: --grade 85", b.name(i))
	}
	slot, err := b.hangsIn(i, f)
	if err != nil {
		return err
	}
	if rest := b.restOf(i); rest != catalog.None && p.Stage == catalog.StageHung && p.HungIn != slot {
		return fmt.Errorf("%s hangs in %s; what was left of the bag is called %s: brightset record hung %s --slot %s", b.name(i), b.st.Slots[p.HungIn].ID, b.name(rest), b.name(rest), b.st.Slots[slot].ID)
	}
	b.split(i, b.st.Slots[slot].Quantity, slot)
	b.setPiece(i, "stage", catalog.StageHung.String())
	b.setPiece(i, "hung_in", b.st.Slots[slot].ID)
	grade := value(f.Grade)
	if c := b.asIs(i, slot); c != nil && p.Stage != catalog.StageHung && c.Other > 0 {
		b.spend(c.Other, i, "fitting %s in %s", b.name(i), b.st.Slots[slot].ID)
		if f.Grade == "" {
			grade = value(catalog.FormatCenti(c.Grade)) // handwork leaves no more than that
		}
	}
	b.setPiece(i, "grade", grade)
	b.taken(i)
	return nil
}

// hangsIn is the slot in which a piece is said to hang.
func (b *builder) hangsIn(i int, f *Facts) (int, error) {
	if f.Slot != "" {
		return b.slot(f.Slot)
	}
	fits := b.st.Pieces[i].Fits
	if len(fits) != 1 {
		return 0, fmt.Errorf("%s fits more than one slot; say where it hangs: --slot %s", b.name(i), b.st.Slots[fits[0]].ID)
	}
	return fits[0], nil
}

// asIs is the choice of hanging a piece in a slot as it is, nil where there is none.
func (b *builder) asIs(i, slot int) *model.Choice {
	all := model.Choices(b.st)[slot]
	for k := range all {
		if c := &all[k]; c.Piece == i && c.Work == catalog.WorkAsIs {
			return c
		}
	}
	return nil
}

// bought makes a piece, or all that come out of a bundle, the customer's own: what they
// cost is spent.
func (b *builder) bought(f *Facts) error {
	if bundle := b.bundle(f.Target); bundle != catalog.None {
		if f.Count != "" {
			return fmt.Errorf("bundle %s is bought whole; leave --count out", b.st.Bundles[bundle].ID)
		}
		cost := b.st.Bundles[bundle].Price
		for i := range b.st.Pieces {
			if b.st.Pieces[i].Bundle == bundle {
				b.own(i)
			}
		}
		return b.pay(cost, catalog.None, f, "bundle %s", b.st.Bundles[bundle].ID)
	}
	i, err := b.here(f.Target)
	if err != nil {
		return err
	}
	p := &b.st.Pieces[i]
	if p.Bundle != catalog.None {
		return fmt.Errorf("%s comes out of bundle %s; type: brightset record bought %s", b.name(i), b.st.Bundles[p.Bundle].ID, b.st.Bundles[p.Bundle].ID)
	}
	n, err := b.howManyBought(i, f)
	if err != nil {
		return err
	}
	b.split(i, n, catalog.None)
	b.own(i)
	return b.pay(p.Price*catalog.Cents(n), i, f, "bought %s", b.many(n, i))
}

// many is a number of pieces by name: "8 of clips", "crest-1".
func (b *builder) many(n, i int) string {
	if b.st.Pieces[i].Quantity == 1 {
		return b.name(i)
	}
	return fmt.Sprintf("%d of %s", n, b.name(i))
}

// bundle finds a bundle; pieces go before it where both have the name.
func (b *builder) bundle(id string) int {
	if _, isPiece := b.st.FindPiece(id); isPiece {
		return catalog.None
	}
	for i := range b.st.Bundles {
		if b.st.Bundles[i].ID == id {
			return i
		}
	}
	return catalog.None
}

// own makes a piece the customer's; one of the shop's stays in its file, paid for and
// in use on this job.
func (b *builder) own(i int) {
	shop, target := b.of(i)
	if shop {
		if b.st.Pieces[i].Side == catalog.Vendors {
			b.set(true, target, "owner", "shop")
		}
		b.set(true, target, "price", "0.00")
		b.set(true, target, "bundle", nil)
		b.taken(i)
	} else {
		b.set(false, target, "owner", "customer")
		b.set(false, target, "price", nil)
		b.set(false, target, "bundle", nil)
	}
	b.set(shop, target, "chance", int64(1))
	b.set(shop, target, "days", int64(0))
}

func (b *builder) pay(cost catalog.Cents, piece int, f *Facts, format string, args ...any) error {
	for _, one := range []struct{ flag, text string }{{"cost", f.Cost}, {"freight", f.Freight}} {
		if one.text == "" {
			continue
		}
		sum, err := money(one.flag, one.text)
		if err != nil {
			return err
		}
		if one.flag == "cost" {
			cost = sum
		} else {
			b.spend(sum, piece, "freight: "+format, args...)
		}
	}
	b.spend(cost, piece, format, args...)
	return nil
}

func (b *builder) came(f *Facts) error {
	i, err := b.here(f.Target)
	if err == nil {
		b.setPiece(i, "chance", int64(1))
		b.setPiece(i, "days", int64(0))
	}
	return err
}

func (b *builder) failed(f *Facts) error {
	i, err := b.here(f.Target)
	if err != nil {
		return err
	}
	if b.st.Pieces[i].Chance >= catalog.One {
		return fmt.Errorf("%s is no lead: it is there; if it is gone type: brightset record lost %s", b.name(i), b.name(i))
	}
	b.setPiece(i, "stage", catalog.StageLost.String())
	return nil
}

func (b *builder) traded(f *Facts) error {
	var names []string
	for t := range b.st.Trades {
		trade := &b.st.Trades[t]
		if trade.ID != f.Target {
			names = append(names, trade.ID)
			continue
		}
		for _, i := range []int{trade.Give, trade.Get} {
			if _, err := b.here(b.st.Pieces[i].Key()); err != nil {
				return err
			}
		}
		get := &b.st.Pieces[trade.Get]
		b.setPiece(trade.Give, "stage", catalog.StageSold.String())
		b.own(trade.Get)
		b.spend(get.Price-trade.Credit, trade.Get, "trade %s: %s for %s", trade.ID, b.name(trade.Give), b.name(trade.Get))
		b.clear(false, []string{"trade", trade.ID})
		return nil
	}
	return fmt.Errorf("no trade is called %q%s", f.Target, meant(f.Target, names))
}
