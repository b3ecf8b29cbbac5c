package catalog

import "fmt"

// readBox reads whether a piece is sold by the box alone. Its price is then that of a box, and
// its quantity how many there are to be had, in whole boxes, one if that is not said.
func (l *loader) readBox(t *table, p *Piece) {
	box := t.whole("box", 2, MaxQuantity)
	if !box.Set {
		return
	}
	switch {
	case p.InShop:
		t.wrong("box", "what lies in the shop's drawers is counted piece by piece",
			"leave box out; an offer by the box belongs in the job's file")
		return
	case t.has("bundle"):
		t.wrong("box", "what comes out of a bundle is bought with it", "leave box or bundle out")
		return
	case p.Side != Vendors:
		t.wrong("box", "only what a vendor sells is sold by the box", "write owner = ..., the vendor's id, or leave box out")
		return
	}
	if _, taken := l.bundles.index[p.ID]; taken {
		t.wrong("box", fmt.Sprintf("a bundle is called %q too, so nobody can tell them apart", p.ID),
			"give the piece or the bundle another name")
	}
	if !t.has("quantity") {
		p.Quantity = box.V
	}
	if over := p.Quantity % box.V; over > 0 {
		t.wrong("quantity", fmt.Sprintf("%d are no whole number of boxes of %d", p.Quantity, box.V),
			fmt.Sprintf("write quantity = %d, all that there are to be had", p.Quantity-over+box.V))
	}
	from := t.here()
	from.Source = JobFile // what another job buys is none of its boxes, wherever it is written
	p.Bundle = len(l.state.Bundles)
	l.state.Bundles = append(l.state.Bundles, Bundle{ID: p.ID, Vendor: p.Vendor, Price: p.Price, Box: box.V, From: from})
	p.Price = 0
}
