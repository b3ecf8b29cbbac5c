package catalog

import (
	"fmt"
	"slices"
)

// readPieces reads [piece.NAME] of the job's file, of what it includes and of the
// shop's file, in this order. A piece of the shop's that fits no slot of the job
// is left out.
func (l *loader) readPieces() {
	var later []*table
	for _, root := range slices.Concat([]*table{l.job}, l.parts, []*table{l.shop}) {
		if root == nil {
			continue
		}
		ids := l.jobPieces
		if root == l.shop {
			ids = l.shopPieces
		}
		for _, t := range root.named("piece") {
			if t.addsOnly() && slices.Contains(l.parts, root) {
				later = append(later, t)
				continue
			}
			if at, ok := ids[t.id]; ok {
				l.addToPiece(t, &l.state.Pieces[at])
				t.done()
				continue
			}
			p := l.readPiece(t, root == l.shop)
			t.done()
			if p.InShop && len(p.Fits) == 0 {
				l.keptOut[t.id] = true
				continue
			}
			ids[t.id] = len(l.state.Pieces)
			l.state.Pieces = append(l.state.Pieces, p)
		}
	}
	for _, t := range later {
		l.addLater(t)
	}
	for id, i := range l.jobPieces {
		if k, again := l.shopPieces[id]; again {
			l.state.Pieces[i].InBoth, l.state.Pieces[k].InBoth = true, true
		}
	}
}

// addsOnly says whether a piece's table holds nothing but findings and quotes.
func (t *table) addsOnly() bool {
	for k := range t.m {
		if k != "finding" && k != "quote" {
			return false
		}
	}
	return len(t.m) > 0
}

// addLater reads what an included file adds to a piece of the job's, whichever
// file that is in.
func (l *loader) addLater(t *table) {
	_, inShop := l.shopPieces[t.id]
	at, ok := l.jobPieces[t.id]
	switch {
	case ok:
		l.addToPiece(t, &l.state.Pieces[at])
		t.done()
	case inShop || l.keptOut[t.id]:
		t.wrongHere(fmt.Sprintf("piece %q is in the shop's file", clip(t.id)), "write its findings and quotes there")
	case !l.partial:
		var known []string
		for i := range l.state.Pieces {
			if p := &l.state.Pieces[i]; !p.InShop {
				known = append(known, p.ID)
			}
		}
		t.wrongHere(fmt.Sprintf("no piece of the job is called %q", clip(t.id)),
			l.meant(t.id, known, "first write the piece itself: its kind and metal and what it fits"))
	}
}

// addToPiece reads findings and quotes that an included file adds to a piece of
// another file. Anything else would be a second piece of the same name.
func (l *loader) addToPiece(t *table, p *Piece) {
	for _, key := range t.keys() {
		if key != "finding" && key != "quote" {
			t.wrongHere(fmt.Sprintf("piece %q is written twice, first in %s", t.id, p.From),
				"give one of the two another name; only findings and quotes can be added to a piece")
			for _, k := range t.keys() {
				t.raw(k)
			}
			return
		}
	}
	twice := func(sub *table, from Origin) {
		sub.wrongHere(fmt.Sprintf("%s of piece %q is written twice, first in %s", sub.what, t.id, from),
			"give one of the two another name")
	}
	for _, sub := range t.named("finding") {
		f := l.readFinding(sub)
		if i := slices.IndexFunc(p.Findings, func(g Finding) bool { return g.ID == f.ID }); i >= 0 {
			twice(sub, p.Findings[i].From)
		}
		p.Findings = append(p.Findings, f)
	}
	for _, sub := range t.named("quote") {
		q := l.readQuote(sub, p, p.Metal == None)
		if i := slices.IndexFunc(p.Quotes, func(g Quote) bool { return g.ID == q.ID }); i >= 0 {
			twice(sub, p.Quotes[i].From)
		}
		p.Quotes = append(p.Quotes, q)
	}
}

func (l *loader) readPiece(t *table, inShop bool) Piece {
	p := Piece{
		ID: t.id, InShop: inShop, Name: t.nameOr(t.id),
		Tag: t.text("tag"), Place: t.text("place"), Marks: t.text("marks"), Note: t.text("note"),
		Photos: t.texts("photos"), Fitted: t.flag("fitted").V, Hardware: t.texts("hardware"), Protect: t.text("protect"),
		Metal: None, Vendor: None, Bundle: None,
		Quantity: t.whole("quantity", 1, MaxQuantity).Or(1),
		Chance:   t.share("chance").Or(One), Days: t.whole("days", 0, MaxDays),
		Grade: t.grade("grade"), Tone: t.tone("tone"), Fresh: t.flag("fresh"),
		From: t.here(),
	}
	p.Fits, p.Fit = l.readFits(t, inShop)
	if t.need("kind", `write kind = "original", "old-stock" or "reproduction"`) {
		p.Kind = Kind(t.word("kind", string(Original), string(OldStock), string(Reproduction)))
	}
	if t.need("metal", `write metal = "steel" or another of the metal table, or "unknown"`) && t.m["metal"] != "unknown" {
		p.Metal = t.ref("metal", l.metals)
	}
	if !inShop { // the shop's may lie with another job
		l.lookForPhotos(t, &p)
	}
	l.readOwner(t, &p)
	l.readStage(t, &p)
	p.arrive()
	for _, sub := range t.named("finding") {
		p.Findings = append(p.Findings, l.readFinding(sub))
	}
	for _, sub := range t.named("quote") {
		p.Quotes = append(p.Quotes, l.readQuote(sub, &p, t.m["metal"] == "unknown"))
	}
	return p
}

// readOwner reads whose a piece is and what it costs to have it.
func (l *loader) readOwner(t *table, p *Piece) {
	p.Bundle = t.ref("bundle", l.bundles)
	if p.InShop {
		p.Side = Shops
	}
	switch owner := t.m["owner"]; {
	case !t.has("owner"):
		if p.Bundle != None && l.state.Bundles[p.Bundle].Vendor != None {
			p.Side, p.Vendor = Vendors, l.state.Bundles[p.Bundle].Vendor
		}
	case owner == "customer":
		p.Side = Customers
		if p.InShop {
			t.wrong("owner", "the shop's file serves all jobs, so a customer's piece can't be in it",
				"put the piece in that customer's job file")
		}
	case owner == "shop":
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
	if p.Bundle != None && p.Side == Vendors && p.Vendor != None {
		if v := l.state.Bundles[p.Bundle].Vendor; v != p.Vendor {
			t.wrong("owner", fmt.Sprintf("the bundle %q is not this vendor's", l.state.Bundles[p.Bundle].ID),
				"leave owner out, or write the bundle's vendor")
		}
	}
	if p.Side == Vendors && p.Bundle == None && !t.has("price") && !t.has("bundle") {
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
