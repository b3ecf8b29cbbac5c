package record

import (
	"fmt"

	"brightset/catalog"
	"brightset/catalog/event"
)

// bought makes pieces, or all that come out of a bundle, the customer's own: what they cost
// is spent. What no file names is written down first, if it is said what it is.
func (b *builder) bought(f *Facts) error {
	if f.Cost != "" && f.Price != "" {
		return fmt.Errorf("--price and --cost are the same here; leave one of them out")
	}
	if f.Price == "" {
		f.Price = f.Cost
	}
	if bundle := b.bundle(f.Target); bundle != catalog.None {
		return b.boughtBundle(bundle, f)
	}
	if f.Fits+f.Kind+f.Metal != "" {
		return b.boughtNew(f)
	}
	if _, known := b.st.FindPiece(f.Target); !known && !several(f) {
		return fmt.Errorf("no file names %q; say what it is: --fits SLOTS --kind KIND --metal METAL%s", f.Target,
			b.like(f.Target))
	}
	all, err := b.allHere(f.Target)
	if err != nil {
		return err
	}
	if len(all) > 1 {
		if err := oneByOne(f); err != nil {
			return err
		}
	}
	what, piece := f.Target, catalog.None
	for _, i := range all {
		n, err := b.boughtPiece(i, f)
		if err != nil {
			return err
		}
		if len(all) == 1 {
			what, piece = b.many(n, i), i
		}
	}
	return b.carried(piece, f, "bought %s%s", what, from(f))
}

// from is where something was bought, in words.
func from(f *Facts) string {
	if f.From == "" {
		return ""
	}
	return " from " + f.From
}

// boughtNew writes down a piece that no file names, from nobody in particular.
func (b *builder) boughtNew(f *Facts) error {
	if f.Fits == "" || f.Kind == "" || f.Metal == "" || f.Price == "" {
		return fmt.Errorf("what was bought that no file names needs all of --fits SLOTS --kind KIND --metal METAL " +
			"--price MONEY")
	}
	one := *f
	one.Cost = ""
	if err := b.newPiece(&one); err != nil {
		return err
	}
	return b.pay(0, catalog.None, f, "bought %s%s", f.Target, from(f))
}

// boughtPiece makes so many of a bag the customer's as are bought.
func (b *builder) boughtPiece(i int, f *Facts) (int, error) {
	p := &b.st.Pieces[i]
	_, target := b.of(i)
	switch {
	case b.box(i) == nil && p.Bundle != catalog.None:
		return 0, fmt.Errorf("%s comes out of bundle %[2]s; type: brightset record bought %[2]s", b.name(i),
			InShell(b.st.Bundles[p.Bundle].ID))
	case p.Side == catalog.Customers && f.Price == "":
		return 0, fmt.Errorf("%s is the customer's already; if money went out for it, say how much: --price 40.00",
			b.name(i))
	case p.InShop && p.Price == 0 && b.d.Value(true, target, event.KeyJob) != nil && f.Price == "":
		return 0, fmt.Errorf("%s is in use on this job and paid for already", b.name(i))
	}
	n, err := b.howManyBought(i, f)
	if err != nil {
		return 0, err
	}
	for k := range b.st.Bans {
		if ban := &b.st.Bans[k]; ban.Piece == i && ban.Slot == catalog.None && ban.Work == "" && ban.Plater == catalog.None {
			b.against("ban %q forbids it%s", ban.ID, because(ban.Reason))
		}
	}
	price := p.Price * catalog.Cents(n)
	if box := b.box(i); box != nil {
		price = box.Price * catalog.Cents(box.Count(n))
	}
	b.split(i, n, catalog.None)
	b.asMany(i, n)
	b.own(i)
	return n, b.priceOf(price, i, f, "bought %s%s", b.many(n, i), from(f))
}

// many is a number of pieces by name: "8 of clips", "crest-1".
func (b *builder) many(n, i int) string {
	if b.st.Pieces[i].Quantity == 1 {
		return b.name(i)
	}
	return fmt.Sprintf("%d of %s", n, b.name(i))
}

// own makes a piece the customer's; one of the shop's stays in its file, paid for and
// in use on this job.
func (b *builder) own(i int) {
	shop, target := b.of(i)
	if shop {
		if b.st.Pieces[i].Side == catalog.Vendors {
			b.set(true, target, event.KeyOwner, "shop")
		}
		b.set(true, target, event.KeyPrice, "0.00")
		b.set(true, target, event.KeyBundle, nil)
		b.taken(i)
	} else {
		b.set(false, target, event.KeyOwner, "customer")
		b.set(false, target, event.KeyPrice, nil)
		b.set(false, target, event.KeyBundle, nil)
		b.set(false, target, event.KeyBox, nil)
	}
	b.set(shop, target, event.KeyChance, int64(1))
	b.set(shop, target, event.KeyDays, int64(0))
}

// pay spends what something cost, and what came on top.
func (b *builder) pay(cost catalog.Cents, piece int, f *Facts, format string, args ...any) error {
	if err := b.priceOf(cost, piece, f, format, args...); err != nil {
		return err
	}
	return b.carried(piece, f, format, args...)
}

// priceOf spends what something cost, unless another sum is named.
func (b *builder) priceOf(cost catalog.Cents, piece int, f *Facts, format string, args ...any) (err error) {
	if f.Price != "" {
		if cost, err = money("price", f.Price); err != nil {
			return err
		}
	}
	b.spendAs(catalog.BearsParts, cost, piece, format, args...)
	return nil
}

// carried spends the freight of what was bought.
func (b *builder) carried(piece int, f *Facts, format string, args ...any) error {
	if f.Freight == "" {
		return nil
	}
	freight, err := money("freight", f.Freight)
	if err == nil {
		b.spendAs(catalog.BearsParts, freight, piece, "freight: "+format, args...)
	}
	return err
}

func (b *builder) came(f *Facts) error {
	i, err := b.here(f.Target)
	if err != nil {
		return err
	}
	p := &b.st.Pieces[i]
	sold := p.Side == catalog.Vendors || p.Bundle != catalog.None
	if p.Chance >= catalog.One && ((p.Days.Set && p.Days.V == 0) || (!p.Days.Set && !sold)) {
		return fmt.Errorf("%s is here already: it is no lead and nobody waits for it", b.name(i))
	}
	b.setPiece(i, event.KeyChance, int64(1))
	b.setPiece(i, event.KeyDays, int64(0))
	return nil
}

func (b *builder) failed(f *Facts) error {
	i, err := b.here(f.Target)
	if err != nil {
		return err
	}
	if b.st.Pieces[i].Chance >= catalog.One {
		return fmt.Errorf("%s is no lead: it is there; if it is gone type: brightset record lost %s", b.name(i), b.typed(i))
	}
	b.setPiece(i, event.KeyStage, catalog.StageLost.String())
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
			if err := b.there(i); err != nil {
				return err
			}
		}
		get := &b.st.Pieces[trade.Get]
		b.setPiece(trade.Give, event.KeyStage, catalog.StageSold.String())
		b.own(trade.Get)
		text := fmt.Sprintf("trade %s: %s for %s", trade.ID, b.name(trade.Give), b.name(trade.Get))
		b.spendAs(catalog.BearsParts, get.Price, trade.Get, "%s", text)
		b.spendAs(catalog.BearsNone, -trade.Credit, trade.Get, "%s", text)
		b.clear(false, event.Of(event.TableTrade, trade.ID))
		return nil
	}
	return fmt.Errorf("no trade is called %q%s", f.Target, meant(f.Target, names))
}
