package model

import (
	"fmt"
	"math/rand/v2"
	"sort"

	"brightset/catalog"
)

// slots makes the slots; in jobs with "quantity" some need two or three pieces.
func (j *randomJob) slots(n int) {
	for s := range n {
		r := j.of(fmt.Sprint("slot ", s))
		slot := catalog.Slot{ID: fmt.Sprintf("s%d", s), Part: fmt.Sprintf("part%d", s/2), Quantity: 1,
			Area:   randomSet(randomFrom[catalog.Micro](r, 400_000, 3_500_000)),
			Weight: randomFrom[catalog.Centi](r, 1, 3) * 100, Rescue: randomSet(randomFrom[catalog.Cents](r, 150_00, 700_00)),
			RescueDays: randomSet(randomFrom(r, 10, 40))}
		slot.Name = slot.ID
		if r := j.of(fmt.Sprint("quantity ", s)); j.has("quantity") && randomChance(r, 50) {
			slot.Quantity = randomFrom(r, 2, 3)
		}
		if r := j.of(fmt.Sprint("no-area ", s)); j.has("no-area") && randomChance(r, 50) {
			slot.Area = catalog.Val[catalog.Micro]{}
		}
		if r := j.of(fmt.Sprint("max-breakage ", s)); j.has("max-breakage") && randomChance(r, 60) {
			slot.MaxBreakage = randomSet(randomFrom[catalog.Micro](r, 0, 120_000))
		}
		j.st.Slots = append(j.st.Slots, slot)
	}
}

// pieces makes two pieces a slot, and one more for every third.
func (j *randomJob) pieces() {
	for s := range j.st.Slots {
		count := 2
		if s%3 == 0 {
			count = 3
		}
		for i := range count {
			j.piece(s, i)
		}
	}
	// the job's pieces come before the shop's
	sort.SliceStable(j.st.Pieces, func(a, b int) bool { return !j.st.Pieces[a].InShop && j.st.Pieces[b].InShop })
}

// piece makes one piece meant for slot s, and perhaps for others.
func (j *randomJob) piece(s, i int) {
	name := fmt.Sprintf("piece %d %d ", s, i)
	r := j.of(name)
	p := catalog.Piece{ID: fmt.Sprintf("p%d-%d", s, i), InShop: i == 1 && randomChance(r, 50), Fits: []int{s}, Kind: catalog.Original,
		Vendor: catalog.None, Bundle: catalog.None, Metal: randomFrom(r, 0, 2), Quantity: j.st.Slots[s].Quantity, Chance: catalog.One}
	if i > 0 {
		p.Kind = []catalog.Kind{catalog.Original, catalog.OldStock, catalog.Reproduction}[r.IntN(3)]
	}
	j.findings(&p, r)
	if r := j.of(name + "given-grade"); j.has("given-grade") && randomChance(r, 40) || len(p.Findings) == 0 && randomChance(r, 80) {
		p.Grade = randomSet(randomFrom[catalog.Centi](r, 45_00, 97_00))
		p.Tone = randomMaybe(randomChance(r, 50), randomFrom[catalog.Centi](r, -1_00, 5_00))
		p.Fresh = randomMaybe(randomChance(r, 30), randomChance(r, 50))
	}
	j.source(&p, name, i)
	if r := j.of(name + "shared"); j.has("shared") && randomChance(r, 50) {
		if other := r.IntN(len(j.st.Slots)); other != s {
			p.Fits = append(p.Fits, other)
		}
	}
	if r := j.of(name + "fit"); j.has("fit") && randomChance(r, 35) {
		p.Fit = []catalog.Fit{{Slot: r.IntN(len(j.st.Slots)), Hours: randomFrom[catalog.Micro](r, 0, 2_500_000),
			Breakage: randomFrom[catalog.Micro](r, 0, 90_000), Cap: randomFrom[catalog.Centi](r, 70_00, 100_00)}}
	}
	if r := j.of(name + "bag"); j.has("bag") && randomChance(r, 35) {
		p.Quantity += randomFrom(r, 1, 3)
	}
	if r := j.of(name + "quote"); j.has("quote") && randomChance(r, 40) {
		j.quotes(&p, r)
	}
	if r := j.of(name + "unknown-metal"); j.has("unknown-metal") && randomChance(r, 25) {
		p.Metal = catalog.None
	}
	j.st.Pieces = append(j.st.Pieces, p)
}

func (j *randomJob) findings(p *catalog.Piece, r *rand.Rand) {
	for range r.IntN(3) {
		f := catalog.Finding{ID: fmt.Sprintf("f%d", len(p.Findings)), Defect: r.IntN(len(j.st.Tables.Defects)),
			Severity: catalog.Severity([]int{0, 0, 1, 1, 2}[r.IntN(5)]), Extent: randomFrom[catalog.Micro](r, 50_000, 1_000_000),
			Count: randomFrom(r, 1, 3), Where: []catalog.Where{catalog.Face, catalog.Face, catalog.Edge, catalog.Back}[r.IntN(4)]}
		p.Findings = append(p.Findings, f)
	}
}

// source says whose the piece is and what it costs to have it. The first piece
// of a slot is always the customer's.
func (j *randomJob) source(p *catalog.Piece, name string, i int) {
	r := j.of(name + "source")
	price := randomFrom[catalog.Cents](r, 20_01, 220_99)
	switch {
	case i == 0:
		if r := j.of(name + "value"); j.has("value") && randomChance(r, 60) {
			p.Value = randomFrom[catalog.Cents](r, 5_00, 90_00)
		}
	case len(j.st.Bundles) > 0 && randomChance(j.of(name+"bundle"), 35):
		p.Side, p.Bundle, p.Vendor = catalog.Vendors, 0, j.st.Bundles[0].Vendor
	case len(j.st.Vendors) > 0 && randomChance(r, 60):
		p.Side, p.Vendor, p.Price = catalog.Vendors, r.IntN(len(j.st.Vendors)), price
	default:
		p.Side, p.Price = catalog.Shops, price/2
	}
	if randomChance(r, 25) {
		p.Days = randomSet(randomFrom(r, 0, 40))
	}
	if r := j.of(name + "lead"); j.has("lead") && i > 0 && randomChance(r, 40) {
		p.Chance = randomFrom[catalog.Micro](r, 200_000, 990_000)
		if randomChance(r, 10) {
			p.Chance = 0 // certain to fail: never a line by itself
		}
	}
}

// quotes gives the piece a quote or two with fields left out.
func (j *randomJob) quotes(p *catalog.Piece, r *rand.Rand) {
	for i := range 1 + r.IntN(2) {
		q := catalog.Quote{ID: fmt.Sprintf("q%d", i), Plater: r.IntN(len(j.st.Platers)), Firm: catalog.Firm,
			Cost: randomFrom[catalog.Cents](r, 25_00, 190_00), Work: []string{"", catalog.WorkReplate, catalog.WorkRepair}[r.IntN(3)],
			Breakage: randomMaybe(randomChance(r, 50), randomFrom[catalog.Micro](r, 0, 150_000)),
			Refused:  randomMaybe(randomChance(r, 50), randomFrom[catalog.Micro](r, 0, 100_000)),
			Grade:    randomMaybe(randomChance(r, 60), randomFrom[catalog.Centi](r, 60_00, 98_00)),
			Tone:     randomMaybe(randomChance(r, 40), randomFrom[catalog.Centi](r, -1_00, 2_00)),
			Fresh:    randomMaybe(randomChance(r, 20), randomChance(r, 50)),
			Days:     randomMaybe(randomChance(r, 50), randomFrom(r, 10, 80))}
		levels := j.st.Platers[q.Plater].Levels
		if l := r.IntN(len(levels) + 1); l < len(levels) {
			q.Level = levels[l].Name
		}
		p.Quotes = append(p.Quotes, q)
	}
}
