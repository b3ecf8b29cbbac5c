package catalog

import (
	"fmt"
	"slices"
)

// readOwner reads whose a piece is and what it costs to have it.
func (l *loader) readOwner(t *table, p *Piece) {
	p.Bundle = t.ref("bundle", l.bundles)
	if p.InShop {
		p.Side = Shops
	}
	switch {
	case !t.has("owner"):
		if p.Bundle != None && l.state.Bundles[p.Bundle].Vendor != None {
			p.Side, p.Vendor = Vendors, l.state.Bundles[p.Bundle].Vendor
		}
	case t.says("owner", "customer"):
		p.Side = Customers
		if p.InShop {
			t.wrong("owner", "the shop's file serves all jobs, so a customer's piece can't be in it",
				"put the piece in that customer's job file")
		}
	case t.says("owner", "shop"):
		p.Side = Shops
	default:
		p.Side = Vendors
		p.Vendor = t.ref("owner", l.owners())
	}
	price, value := t.money("price"), t.money("value")
	p.Price, p.Value = price.V, value.V
	switch {
	case price.Set && t.has("bundle"):
		t.wrongKey("price", "a piece out of a bundle has no price of its own",
			fmt.Sprintf("leave price out; the bundle's price stands in [bundle.%s]", keyText(t.text("bundle"))))
	case price.Set && p.Side == Customers:
		t.wrongKey("price", "a customer's piece has no price", `write owner = "shop" or a vendor's id, or value = ... for `+
			`what it would fetch`)
	case value.Set && p.Side != Customers:
		t.wrongKey("value", "only a customer's piece has a value to be given up", "write price = ..., or leave it out")
	}
	if p.Off && p.Side != Customers {
		t.wrong("off", "what came off the object is the customer's", "leave off out; of a piece that was his and was sold, "+
			"write so in note")
	}
	if p.Bundle != None && p.Side == Vendors && p.Vendor != None {
		if v := l.state.Bundles[p.Bundle].Vendor; v != p.Vendor {
			t.wrong("owner", fmt.Sprintf("the bundle %q is not this vendor's", l.state.Bundles[p.Bundle].ID),
				"leave owner out, or write the bundle's vendor")
		}
	}
	if p.Side == Vendors && p.Bundle == None && !t.has("price") && !t.has("bundle") {
		p.Unpriced = true
		t.l.warn(t.here(), fmt.Sprintf("%s is a vendor's but has no price: it counts as free", t.what))
	}
}

// owners are the words an owner may be: the vendors and two more, for "did you
// mean".
func (l *loader) owners() *names {
	n := *l.vendors
	n.kind = "owner"
	n.order = append([]string{"customer", "shop"}, l.vendors.order...)
	return &n
}

// readFits reads which slots a piece fits as it is and by handwork. A name is a
// slot's id or a part; in the shop's file one that nothing here is made of is
// no mistake.
func (l *loader) readFits(t *table, inShop bool) (fits []int, byHand []Fit) {
	seen := map[string]bool{}
	if t.has("fit") || t.need("fits", `write fits = ["..."], the slots or parts it is made for`) {
		before := len(l.list)
		names := t.texts("fits")
		if t.has("fits") && len(names) == 0 && !t.has("fit") && len(l.list) == before {
			t.wrong("fits", "it fits nothing", "name a slot or a part, or leave the piece out")
		}
		for i, name := range names {
			slots := l.slotsFor(name)
			if len(slots) == 0 && !inShop && name != "" && !l.excused(l.slots, name) {
				message, hint := l.unknownSlot(name)
				t.wrongItem("fits", i, message, hint)
			}
			if seen[name] && name != "" {
				t.wrongItem("fits", i, fmt.Sprintf("%q stands here twice", clip(name)), "leave one of the two out")
			} else {
				fits = append(fits, slots...)
			}
			seen[name] = true
		}
	}
	for _, sub := range t.named("fit") {
		slots := l.slotsFor(sub.id)
		if len(slots) == 0 && !inShop && !l.excused(l.slots, sub.id) {
			sub.wrongHere(l.unknownSlot(sub.id))
		}
		one := Fit{
			Hours: sub.hours("hours").V, Breakage: sub.share("breakage").V,
			Cap: sub.grade("cap").Or(MaxGrade), From: sub.here(),
		}
		for _, s := range slots {
			one.Slot = s
			byHand = append(byHand, one)
			fits = append(fits, s)
		}
		sub.done()
	}
	slices.Sort(fits)
	return slices.Compact(fits), byHand
}

// readFitted reads in which slots a piece was tried on: the names of slots or parts, or true
// for all that it fits. In the shop's file one that nothing here is made of is no mistake.
func (l *loader) readFitted(t *table, p *Piece) (in []int) {
	switch v, _ := t.raw("fitted"); v := v.(type) {
	case nil:
		return nil
	case bool:
		if v {
			in = slices.Clone(p.Fits)
		}
		return in
	case string:
		t.wrong("fitted", "this has to be a list of slots or parts", `write fitted = ["..."], where it was tried on, or `+
			"fitted = true for all that it fits")
		return nil
	}
	for i, name := range t.texts("fitted") {
		slots := l.slotsFor(name)
		fits := slices.DeleteFunc(slices.Clone(slots), func(s int) bool { return !slices.Contains(p.Fits, s) })
		switch {
		case name == "" || l.excused(l.slots, name):
		case len(slots) == 0 && !p.InShop:
			message, hint := l.unknownSlot(name)
			t.wrongItem("fitted", i, message, hint)
		case len(slots) > 0 && len(fits) == 0 && !p.InShop:
			t.wrongItem("fitted", i, fmt.Sprintf("piece %q is not said to fit %q", p.ID, clip(name)),
				"add it to the piece's fits, or leave it out")
		}
		in = append(in, fits...)
	}
	slices.Sort(in)
	return slices.Compact(in)
}

// slotsFor gives the slots that a name in fits stands for.
func (l *loader) slotsFor(name string) []int {
	if l.bySlotOrPart == nil {
		l.bySlotOrPart = map[string][]int{}
		for i, s := range l.state.Slots {
			l.bySlotOrPart[s.ID] = append(l.bySlotOrPart[s.ID], i)
			if s.Part != s.ID {
				l.bySlotOrPart[s.Part] = append(l.bySlotOrPart[s.Part], i)
			}
		}
	}
	return l.bySlotOrPart[name]
}

func (l *loader) unknownSlot(name string) (message, hint string) {
	if l.slotWords == nil {
		l.slotWords = slices.Clone(l.slots.order)
		for _, s := range l.state.Slots {
			if !slices.Contains(l.slotWords, s.Part) {
				l.slotWords = append(l.slotWords, s.Part)
			}
		}
	}
	return fmt.Sprintf("no slot or part is called %q", clip(name)),
		l.meant(name, l.slotWords, orOneOf(l.slotWords, fmt.Sprintf("write a table [slot.%s]", keyText(clip(name)))))
}
