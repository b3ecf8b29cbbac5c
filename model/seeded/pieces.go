package seeded

import (
	"fmt"
	"slices"

	"brightset/catalog"
)

// Pieces: every slot has a dear reproduction of its own, so that the set can
// always be filled out of the catalogue; the others are what lies on a bench.
func (m *Maker) Pieces() {
	for s := range m.State.Slots {
		fits := m.fits(s)
		m.own = append(m.own, len(m.State.Pieces))
		m.add(s, fits, m.reproduction(s))
		n := m.Family.Pieces - 1 + m.IntN(3) - 1
		for range n {
			m.add(s, fits, m.candidate(s))
		}
	}
}

// fits are the slots of the same part.
func (m *Maker) fits(s int) []int {
	var out []int
	for k := range m.State.Slots {
		if m.State.Slots[k].Part == m.State.Slots[s].Part {
			out = append(out, k)
		}
	}
	return out
}

func (m *Maker) add(s int, fits []int, p catalog.Piece) {
	p.ID = fmt.Sprintf("piece-%d", len(m.State.Pieces)+1)
	p.Name, p.Fits = p.ID, fits
	if m.chance(0.2) {
		p.Fits = []int{s}
	}
	p.From = catalog.Origin{Source: catalog.JobFile, File: "seeded", Line: len(m.State.Pieces) + 1}
	m.State.Pieces = append(m.State.Pieces, p)
}

// reproduction is as good as the mean asks, and of one series with the other
// reproductions of its match: a set of nothing else meets every rule but the
// budget.
func (m *Maker) reproduction(s int) catalog.Piece {
	p := catalog.Piece{
		Kind: catalog.Reproduction, Side: catalog.Vendors, Vendor: m.IntN(m.Family.Vendors), Bundle: catalog.None,
		Metal: m.IntN(len(m.State.Tables.Metals)), Quantity: 8, Price: m.Share(s, 0.9, 1.3), Chance: catalog.One,
		Grade: given(catalog.Centi(100 * (int(max(m.Family.Mean, m.Family.Floor, 78)) + m.IntN(9)))),
		Tone:  given(catalog.Centi(m.IntN(200) - 50)),
	}
	if m.chance(m.Family.Owned) {
		p.Side, p.Vendor, p.Quantity = catalog.Customers, catalog.None, m.State.Slots[s].Quantity
		p.Price, p.Value = 0, p.Price
	}
	if first, ok := m.series[s]; ok {
		p.Grade, p.Tone = m.State.Pieces[first].Grade, m.State.Pieces[first].Tone
	}
	for i := range m.State.Matches {
		if slices.Contains(m.State.Matches[i].Slots, s) {
			for _, k := range m.State.Matches[i].Slots {
				m.series[k] = len(m.State.Pieces)
			}
		}
	}
	return p
}

// candidate is a piece with faults: about half came off the object, the rest is
// what drawers hold and vendors offer. Unused old stock is the best of them, and
// is priced like it.
func (m *Maker) candidate(s int) catalog.Piece {
	p := catalog.Piece{
		Kind: catalog.Original, Vendor: catalog.None, Bundle: catalog.None, Metal: m.IntN(len(m.State.Tables.Metals)),
		Quantity: m.State.Slots[s].Quantity, Chance: catalog.One,
	}
	switch offered := m.offered(); {
	case m.chance(offered):
		m.offer(s, &p)
	case m.chance(0.3):
		p.Side, p.InShop = catalog.Shops, true
		p.Price = m.Share(s, 0.1, 0.4)
	case m.chance(0.3):
		p.Value = m.between(5, 80)
	}
	if m.chance(m.Family.Leads) {
		p.Chance = catalog.Micro(300_000 + m.IntN(65)*10_000)
	}
	if p.Grade.Set {
		return p
	}
	m.Findings(&p)
	if m.chance(m.Family.Quotes) {
		m.quote(s, &p)
	}
	return p
}

// offered is the share of candidates that vendors offer.
func (m *Maker) offered() float64 {
	if m.Family.Offered > 0 {
		return m.Family.Offered
	}
	return 0.3
}

// offer: the better graded, the dearer.
func (m *Maker) offer(s int, p *catalog.Piece) {
	p.Side, p.Vendor, p.Price = catalog.Vendors, m.IntN(m.Family.Vendors), m.Share(s, 0.15, 0.6)
	if m.chance(0.35) {
		better := m.IntN(20)
		p.Kind, p.Grade = catalog.OldStock, given(catalog.Centi(100*(76+better)))
		p.Price = m.Share(s, 0.4+0.03*float64(better), 0.7+0.03*float64(better))
	}
	if m.Family.Bundles > 0 && m.chance(m.bundled()) {
		p.Bundle = m.IntN(m.Family.Bundles)
		p.Vendor, p.Price = m.State.Bundles[p.Bundle].Vendor, 0
	}
}

// bundled is the share of offers that come out of a bundle: four pieces a bundle.
func (m *Maker) bundled() float64 {
	return min(0.25, 4*float64(m.Family.Bundles)/(float64(m.Family.Slots*m.Family.Pieces)*m.offered()))
}

// Share is a price from lo to hi times what a good piece for the slot is worth.
func (m *Maker) Share(s int, lo, hi float64) catalog.Cents {
	return m.between(int64(lo*m.Worth[s]), int64(hi*m.Worth[s]))
}

// Findings: a used piece has two to four faults, seldom only light ones.
func (m *Maker) Findings(p *catalog.Piece) {
	for i := range 2 + m.IntN(3) {
		f := catalog.Finding{
			ID: fmt.Sprintf("%c", 'a'+i), Defect: m.IntN(len(m.State.Tables.Defects)), Severity: m.severity(),
			Extent: catalog.Micro(20_000 * (1 + m.IntN(25))), Count: 1 + m.IntN(3), Where: catalog.Face,
		}
		if m.chance(0.1) {
			f.Where = catalog.Back
		}
		p.Findings = append(p.Findings, f)
	}
}

func (m *Maker) severity() catalog.Severity {
	switch v := m.Float64(); {
	case v < 0.4:
		return catalog.Light
	case v < 0.8:
		return catalog.Moderate
	}
	return catalog.Severe
}

func (m *Maker) quote(s int, p *catalog.Piece) {
	for range 1 + m.IntN(2) {
		q := m.IntN(m.Family.Platers)
		level := m.State.Platers[q].Levels[m.IntN(2)].Name
		p.Quotes = append(p.Quotes, catalog.Quote{
			ID: fmt.Sprintf("q%d", len(p.Quotes)+1), Plater: q, Work: catalog.WorkReplate, Level: level,
			Cost: m.between(45, 380), Firm: catalog.Estimate,
			Breakage: given(catalog.Micro(10_000 * m.IntN(15))), Refused: given(catalog.Micro(10_000 * m.IntN(6))),
			Grade: given(catalog.Centi(100 * (80 + m.IntN(17)))),
		})
	}
}
