package jobs

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"sort"

	"brightset/catalog"
)

// Slots makes the slots; in jobs with "quantity" some need two or three pieces.
func (j *RandomJob) Slots(n int) {
	for s := range n {
		r := j.Of(fmt.Sprint("slot ", s))
		id := fmt.Sprintf("s%d", s)
		slot := catalog.Slot{ID: id, Name: id, Part: fmt.Sprintf("part%d", s/2), Quantity: 1,
			Area:       Set(Between[catalog.Micro](r, 400_000, 3_500_000)),
			Weight:     Between[catalog.Centi](r, 1, 3) * 100,
			Rescue:     Set(Between[catalog.Cents](r, 150_00, 700_00)),
			RescueDays: Set(Between(r, 10, 40))}
		slot.Name = slot.ID
		if r := j.Of(fmt.Sprint("quantity ", s)); j.has("quantity") && Chance(r, 50) {
			slot.Quantity = Between(r, 2, 3)
		}
		if r := j.Of(fmt.Sprint("no-area ", s)); j.has("no-area") && Chance(r, 50) {
			slot.Area = catalog.Val[catalog.Micro]{}
		}
		slot.Bears = j.has("bears") && Chance(j.Of(fmt.Sprint("bears ", s)), 60)
		if r := j.Of(fmt.Sprint("max-breakage ", s)); j.has("max-breakage") && Chance(r, 60) {
			slot.MaxBreakage = Set(Between[catalog.Micro](r, 0, 120_000))
		}
		if r := j.Of(fmt.Sprint("keep ", s)); j.has("keep") && Chance(r, 80) {
			slot.Keep = Between[catalog.Cents](r, 1, 150_00)
		}
		j.St.Slots = append(j.St.Slots, slot)
	}
}

// Pieces makes two pieces a slot, and one more for every third.
func (j *RandomJob) Pieces() {
	for s := range j.St.Slots {
		count := 2
		if s%3 == 0 {
			count = 3
		}
		for i := range count {
			j.piece(s, i)
		}
	}
	// the job's pieces come before the shop's
	sort.SliceStable(j.St.Pieces, func(a, b int) bool { return !j.St.Pieces[a].InShop && j.St.Pieces[b].InShop })
}

// piece makes one piece meant for slot s, and perhaps for others.
func (j *RandomJob) piece(s, i int) {
	name := fmt.Sprintf("piece %d %d ", s, i)
	r := j.Of(name)
	p := catalog.Piece{ID: fmt.Sprintf("p%d-%d", s, i), InShop: i == 1 && Chance(r, 50), Fits: []int{s},
		Kind:   catalog.Original,
		Vendor: catalog.None, Bundle: catalog.None, Metal: Between(r, 0, 2), Quantity: j.St.Slots[s].Quantity,
		Chance: catalog.One}
	if i > 0 {
		p.Kind = []catalog.Kind{catalog.Original, catalog.OldStock, catalog.Reproduction}[r.IntN(3)]
	}
	j.findings(&p, r)
	j.harmless(&p, name)
	p.Weak = j.has("soundness") && Chance(j.Of(name+"weak"), 15)
	p.Tried = Chance(j.Of(name+"tried"), 25)
	if r := j.Of(name + "done"); j.has("done") {
		j.workDone(&p, r)
	}
	if r := j.Of(name + "given-grade"); j.has("given-grade") && Chance(r, 40) ||
		len(p.Findings) == 0 && Chance(r, 80) {
		p.Grade = Set(Between[catalog.Centi](r, 45_00, 97_00))
		p.Tone = maybe(Chance(r, 50), Between[catalog.Centi](r, -1_00, 5_00))
		p.Fresh = maybe(Chance(r, 30), Chance(r, 50))
	}
	j.source(&p, name, i)
	p.Off = j.has("keep") && p.Side == catalog.Customers && Chance(j.Of(name+"off"), 70)
	if r := j.Of(name + "shared"); j.has("shared") && Chance(r, 50) {
		if other := r.IntN(len(j.St.Slots)); other != s {
			p.Fits = append(p.Fits, other)
		}
	}
	if r := j.Of(name + "fitted"); Chance(r, 25) {
		p.Fitted = []int{p.Fits[r.IntN(len(p.Fits))]}
	}
	if r := j.Of(name + "fit"); j.has("fit") && Chance(r, 35) {
		p.Fit = []catalog.Fit{{Slot: r.IntN(len(j.St.Slots)), Hours: Between[catalog.Micro](r, 0, 2_500_000),
			Breakage: Between[catalog.Micro](r, 0, 90_000), Cap: Between[catalog.Centi](r, 70_00, 100_00)}}
	}
	if r := j.Of(name + "bag"); j.has("bag") && Chance(r, 35) {
		p.Quantity += Between(r, 1, 3)
	}
	if r := j.Of(name + "quote"); j.has("quote") && Chance(r, 40) {
		j.quotes(&p, r)
	}
	if r := j.Of(name + "unknown-metal"); j.has("unknown-metal") && Chance(r, 25) {
		p.Metal = catalog.None
	}
	if i > 0 && j.has("box") {
		j.box(&p, s, j.Of(name+"box"))
	}
	j.St.Pieces = append(j.St.Pieces, p)
}

// box lets a piece be sold by the box alone, two or three in one, and fit every second slot or
// all of them, so that they may come to want more than one box.
func (j *RandomJob) box(p *catalog.Piece, s int, r *rand.Rand) {
	size, boxes, price, seller := Between(r, 2, 3), Between(r, 2, 3), Between[catalog.Cents](r, 5_00, 120_00), r.IntN(2)
	if !Chance(r, 45) || size*boxes < j.St.Slots[s].Quantity {
		return
	}
	for other := range j.St.Slots {
		if Chance(r, 75) && !slices.Contains(p.Fits, other) {
			p.Fits = append(p.Fits, other)
		}
	}
	p.InShop, p.Side, p.Vendor, p.Price, p.Quantity = false, catalog.Vendors, catalog.None, 0, size*boxes
	if len(j.St.Vendors) > 0 {
		p.Vendor = seller
	}
	p.Bundle = len(j.St.Bundles)
	j.St.Bundles = append(j.St.Bundles, catalog.Bundle{ID: p.ID, Vendor: p.Vendor, Price: price, Box: size,
		From: catalog.Origin{Source: catalog.JobFile}})
}

func (j *RandomJob) findings(p *catalog.Piece, r *rand.Rand) {
	for range r.IntN(3) {
		f := catalog.Finding{ID: fmt.Sprintf("f%d", len(p.Findings)), Defect: r.IntN(len(j.St.Tables.Defects)),
			Severity: catalog.Severity([]int{0, 0, 1, 1, 2}[r.IntN(5)]), Extent: Between[catalog.Micro](r, 50_000,
				1_000_000),
			Count: Between(r, 1, 3), Where: []catalog.Where{catalog.Face, catalog.Face, catalog.Edge,
				catalog.Back}[r.IntN(4)]}
		p.Findings = append(p.Findings, f)
	}
}

// workDone lets some of what mends a fault be behind us: the piece came back unplated.
func (j *RandomJob) workDone(p *catalog.Piece, r *rand.Rand) {
	for i := range p.Findings {
		f := &p.Findings[i]
		for _, w := range j.St.Tables.Mending(f, p.Metal) {
			if Chance(r, 40) {
				f.Done = append(f.Done, w)
			}
		}
	}
}

// source says whose the piece is and what it costs to have it. The first piece
// of a slot is always the customer's.
func (j *RandomJob) source(p *catalog.Piece, name string, i int) {
	r := j.Of(name + "source")
	price := Between[catalog.Cents](r, 20_01, 220_99)
	switch {
	case i == 0:
		if r := j.Of(name + "value"); j.has("value") && Chance(r, 60) {
			p.Value = Between[catalog.Cents](r, 5_00, 90_00)
		}
	case j.has("bundle") && Chance(j.Of(name+"bundle"), 35):
		p.Side, p.Bundle, p.Vendor = catalog.Vendors, 0, j.St.Bundles[0].Vendor
	case len(j.St.Vendors) > 0 && Chance(r, 60):
		p.Side, p.Vendor, p.Price = catalog.Vendors, r.IntN(len(j.St.Vendors)), price
	default:
		p.Side, p.Price = catalog.Shops, price/2
	}
	if Chance(r, 25) {
		p.Days = Set(Between(r, 0, 40))
	}
	if r := j.Of(name + "lead"); j.has("lead") && i > 0 && Chance(r, 40) {
		p.Chance = Between[catalog.Micro](r, 200_000, 990_000)
		if Chance(r, 10) {
			p.Chance = 0 // certain to fail: never a line by itself
		}
	}
}

// quotes gives the piece a quote or two with fields left out.
func (j *RandomJob) quotes(p *catalog.Piece, r *rand.Rand) {
	for i := range 1 + r.IntN(2) {
		q := catalog.Quote{ID: fmt.Sprintf("q%d", i), Plater: r.IntN(len(j.St.Platers)), Firm: catalog.Firm,
			Cost: Between[catalog.Cents](r, 25_00, 190_00), Work: []string{"", catalog.WorkReplate,
				catalog.WorkRepair}[r.IntN(3)],
			Breakage: maybe(Chance(r, 50), Between[catalog.Micro](r, 0, 150_000)),
			Refused:  maybe(Chance(r, 50), Between[catalog.Micro](r, 0, 100_000)),
			Grade:    maybe(Chance(r, 60), Between[catalog.Centi](r, 60_00, 98_00)),
			Tone:     maybe(Chance(r, 40), Between[catalog.Centi](r, -1_00, 2_00)),
			Fresh:    maybe(Chance(r, 20), Chance(r, 50)),
			Days:     maybe(Chance(r, 50), Between(r, 10, 80))}
		levels := j.St.Platers[q.Plater].Levels
		if l := r.IntN(len(levels) + 1); l < len(levels) {
			q.Level = levels[l].Name
		}
		p.Quotes = append(p.Quotes, q)
	}
}
