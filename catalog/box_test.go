package catalog

import "testing"

// boxed is an offer by the box of a vendor v, without its quantity, in lines 6 to 12.
const boxed = piece + "owner = \"v\"\nprice = \"11.00\"\nbox = 50\n"

// TestBoxes: the price is a box's, and without a quantity there is one.
func TestBoxes(t *testing.T) {
	for text, want := range map[string]int{boxed: 50, boxed + "quantity = 150\n": 150} {
		st := mustLoad(t, head+text, "[vendor.v]\n", Options{})
		p := &st.Pieces[0]
		b := st.Bundles[p.Bundle]
		if p.Quantity != want || p.Price != 0 || b.ID != "p" || b.Price != 11_00 || b.Box != 50 || b.Vendor != 0 {
			t.Errorf("%+v of %+v", p, b)
		}
	}
	st := mustLoad(t, head+boxed+"[bundle.crate]\nprice = \"9.00\"\n", "[vendor.v]\n", Options{})
	if all := st.Together(); len(all) != 1 || all[0].ID != "crate" || len(st.Bundles) != 2 {
		t.Errorf("sold together: %+v of %+v", all, st.Bundles)
	}
	b := Bundle{Box: 50}
	for pieces, want := range map[int]int{0: 0, 1: 1, 50: 1, 51: 2, 100: 2, 101: 3} {
		if got := b.Count(pieces); got != want {
			t.Errorf("%d pieces: %d boxes, want %d", pieces, got, want)
		}
	}
}

// TestBoxMistakes: what is not sold by the box.
func TestBoxMistakes(t *testing.T) {
	for _, c := range []struct {
		name, job, shop string
		want            []string
	}{
		{"part of a box", head + boxed + "quantity = 120\n", "[vendor.v]\n", []string{
			"job.toml:13:12+3: quantity: 120 are no whole number of boxes of 50 | write quantity = 150, all that there are to " +
				"be had"}},
		{"the customer's", head + piece + "box = 50\n", "", []string{
			"job.toml:10:7+2: box: only what a vendor sells is sold by the box | write owner = ..., the vendor's id, or leave " +
				"box out"}},
		{"in the drawers", head, piece + "box = 50\n", []string{
			"shop.toml:5:7+2: box: what lies in the shop's drawers is counted piece by piece | leave box out; an offer by the " +
				"box belongs in the job's file"}},
		{"out of a bundle", head + piece + "bundle = \"b\"\nbox = 50\n",
			"[vendor.v]\n[bundle.b]\nvendor = \"v\"\nprice = \"9.00\"\n",
			[]string{"job.toml:11:7+2: box: what comes out of a bundle is bought with it | leave box or bundle out"}},
		{"called like a bundle", head + boxed, "[vendor.v]\n[bundle.p]\nprice = \"9.00\"\n", []string{
			"job.toml:12:7+2: box: a bundle is called \"p\" too, so nobody can tell them apart | give the piece or the bundle " +
				"another name"}},
		{"one in a box", head + piece + "owner = \"v\"\nprice = \"1.00\"\nbox = 1\n", "[vendor.v]\n", []string{
			"job.toml:12:7+1: box: 1 is not between 2 and 10000 | write a whole number from 2 to 10000"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			checkMistakes(t, mistakesIn(t, map[string]string{"job.toml": c.job, "shop.toml": c.shop}), c.want)
		})
	}
}
