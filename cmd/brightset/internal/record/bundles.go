package record

import (
	"fmt"
	"slices"

	"brightset/catalog"
	"brightset/catalog/event"
)

// bundled says that a piece comes out of a bundle: it has no price of its own then, and is
// whoever's the bundle is.
func (b *builder) bundled(f *Facts) error {
	i, err := b.here(f.Target)
	if err != nil {
		return err
	}
	k := slices.IndexFunc(b.st.Bundles, func(one catalog.Bundle) bool { return one.ID == f.Bundle && one.Box == 0 })
	if k < 0 {
		return fmt.Errorf("no bundle is called %q; first type: brightset record bundle %s --price 90.00", f.Bundle,
			InShell(f.Bundle))
	}
	if p := &b.st.Pieces[i]; p.Stage != catalog.StageSeen || p.AtPlater() {
		return fmt.Errorf("%s is %s already: what is still to be bought comes out of a bundle", b.name(i), p.Stage)
	}
	b.setPiece(i, event.KeyBundle, b.st.Bundles[k].ID)
	b.asMany(i, b.st.Pieces[i].Quantity)
	for _, key := range []event.Key{event.KeyPrice, event.KeyBox, event.KeyValue, event.KeyOwner} {
		b.setPiece(i, key, nil)
	}
	return nil
}

// unbundled says that a piece is sold by itself after all, for a price of its own: by who sells
// the bundle, or by the shop where nobody is known to.
func (b *builder) unbundled(f *Facts) error {
	i, err := b.here(f.Target)
	if err != nil {
		return err
	}
	p := &b.st.Pieces[i]
	if p.Bundle == catalog.None {
		return fmt.Errorf("%s comes out of no bundle", b.name(i))
	}
	owner := "shop"
	if v := b.st.Bundles[p.Bundle].Vendor; v != catalog.None {
		owner = b.st.Vendors[v].ID
	}
	b.setPiece(i, event.KeyBundle, nil)
	b.setPiece(i, event.KeyBox, nil)
	b.asMany(i, p.Quantity)
	b.setPiece(i, event.KeyOwner, owner)
	b.setPiece(i, event.KeyPrice, f.Cost)
	return nil
}
