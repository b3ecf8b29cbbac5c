package record

import (
	"fmt"

	"brightset/catalog"
	"brightset/catalog/event"
)

func (b *builder) boughtBundle(bundle int, f *Facts) error {
	name, left := b.st.Bundles[bundle].ID, 0
	if f.Count != "" {
		return fmt.Errorf("bundle %s is bought whole; leave --count out", name)
	}
	share, shared := b.takeShare(catalog.ShareBundle, name)
	for i := range b.st.Pieces {
		if b.st.Pieces[i].Bundle != bundle {
			continue
		}
		if left++; shared && b.st.Pieces[i].InShop {
			b.free(i)
		} else {
			b.own(i)
		}
	}
	switch {
	case shared: // another of the jobs may have recorded it before
		return b.pay(share, catalog.None, f, "share of bundle %s%s", name, from(f))
	case left == 0:
		return fmt.Errorf("nothing comes out of bundle %s any more: it was bought already", name)
	}
	return b.pay(b.st.Bundles[bundle].Price, catalog.None, f, "bundle %s%s", name, from(f))
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

// asMany writes down how many there are of what is sold by the box: without its box they would
// be one where nobody wrote it.
func (b *builder) asMany(i, n int) {
	if b.box(i) != nil {
		b.setPiece(i, event.KeyQuantity, int64(n))
	}
}

// box is what a piece is sold by, nil where it is not sold by the box.
func (b *builder) box(i int) *catalog.Bundle {
	if of := b.st.Pieces[i].Bundle; of != catalog.None && b.st.Bundles[of].Box > 0 {
		return &b.st.Bundles[of]
	}
	return nil
}
