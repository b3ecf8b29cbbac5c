package choice

import (
	"brightset/catalog"
	"brightset/model/plan"
)

// draft is a choice in the making: every figure is for one piece.
type draft struct {
	work   string
	plater int
	level  string
	quote  int
	sent   bool

	plate, before, other catalog.Cents
	makers               catalog.Cents // of before and other
	parts                []plan.Part

	breakage, refused catalog.Micro

	grade, tone          catalog.Centi
	fresh, growing, weak bool
	redone               bool
	days                 int

	assumptions []plan.Assumption
	warnings    []string
}

// choice works out the figures for all n pieces the slot needs, with
//
//	b = 1-(1-b1)^n, r = 1-(1-r1)^n by repeated products; c the chance, once
//	u = c (1-m), that it comes and fits; m the chance that it doesn't fit, once
//	ok = (u (1-r)) (1-b), p = 1-ok
//	paid = u (get + give + before + r strip + (1-r)(plate + other)) + (c-u) back
//	cash = get + before + plate + other
//	keeps = ok keep
//
// What the shop and the makers do before a piece goes to the plater is paid whether he
// sends it back or not. A piece that doesn't fit is found out before any of it: its price
// comes back, the freight of sending it back doesn't.
func (d *draft) choice(st *catalog.State, slot, piece int) plan.Choice {
	n := Needed(&st.Slots[slot])
	p := &st.Pieces[piece]
	many := catalog.Cents(n)
	c := plan.Choice{
		Slot: slot, Piece: piece, Work: d.work, Plater: d.plater, Level: d.level, Quote: d.quote, Sent: d.sent,
		Get: many * p.Price, Give: many * p.Value, Plate: many * d.plate, Before: many * d.before,
		Makers: many * d.makers, Other: many * d.other,
		Breakage: repeated(d.breakage, n), Refused: repeated(d.refused, n), Chance: p.Chance,
		Grade: d.grade, Tone: d.tone, Fresh: d.fresh, Redone: d.redone || d.plater != catalog.None, Growing: d.growing,
		Weak: d.weak, Days: d.days,
		Assumptions: tidyAssumptions(d.assumptions), Warnings: d.warnings,
	}
	for _, part := range d.parts {
		part.Hours *= catalog.Micro(n)
		part.Cost *= many
		c.Parts = append(c.Parts, part)
	}
	c.Misfit, c.Keep = misfit(st, p, slot), keepOf(st, p, slot)
	c.Back = wayBack(st, &c)
	if c.Plated() {
		c.Strip = many * st.Platers[d.plater].StripFee
	}
	AddUp(&c)
	return c
}

// AddUp works out what follows from a choice's own figures.
func AddUp(c *plan.Choice) {
	u := c.Usable()
	c.Fails = catalog.One - catalog.Both(catalog.Both(u, catalog.One-c.Refused), catalog.One-c.Breakage)
	c.ExpectedCost = catalog.Of(u, c.Get+c.Give+c.Before+
		catalog.Of(c.Refused, c.Strip)+catalog.Of(catalog.One-c.Refused, c.Plate+c.Other)) + catalog.Of(c.Chance-u, c.Back)
	c.Cash = c.Get + c.Before + c.Plate + c.Other
	c.Keeps = catalog.Of(catalog.One-c.Fails, c.Keep)
}

// repeated is the chance that at least one of n pieces fails that fail with
// chance p each: 1 - (1-p)^n, by repeated products.
func repeated(p catalog.Micro, n int) catalog.Micro {
	ok := catalog.One
	for range n {
		ok = catalog.Both(ok, catalog.One-p)
	}
	return catalog.One - ok
}

// Rescue is what it costs to fill the slot in a hurry when all else has failed.
func Rescue(st *catalog.State, slot int) catalog.Cents { return st.Slots[slot].Rescue.Or(0) }

// DirectVendor is the vendor whose freight a choice's piece is charged with:
// catalog.None for a piece out of a bundle and for one that is not bought.
func DirectVendor(st *catalog.State, c *plan.Choice) int {
	p := &st.Pieces[c.Piece]
	if p.Bundle != catalog.None {
		return catalog.None
	}
	return VendorOf(p)
}

// VendorOf is the vendor a piece belongs to, or catalog.None.
func VendorOf(p *catalog.Piece) int {
	if p.Side != catalog.Vendors {
		return catalog.None
	}
	return p.Vendor
}

// Arrival is the number of days until a piece is on the bench: its own, else
// its bundle's, else its vendor's, else none.
func Arrival(st *catalog.State, p *catalog.Piece) int {
	if p.Days.Set {
		return p.Days.V
	}
	vendor := VendorOf(p)
	if p.Bundle != catalog.None {
		b := &st.Bundles[p.Bundle]
		if b.Days.Set {
			return b.Days.V
		}
		if vendor == catalog.None {
			vendor = b.Vendor
		}
	}
	if vendor != catalog.None {
		return st.Vendors[vendor].Days
	}
	return 0
}

// FallbackCharges is what a fallback's plated work comes to by itself, and the
// freights it pays.
func FallbackCharges(st *catalog.State, f *plan.Choice) (plate, freights catalog.Cents) {
	plate = f.Plate
	if f.InLot() {
		q := &st.Platers[f.Plater]
		plate, freights = max(plate, q.Minimum), q.Freight
	}
	if v := DirectVendor(st, f); v != catalog.None {
		freights += st.Vendors[v].Freight
	}
	return plate, freights
}
