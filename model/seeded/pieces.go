package seeded

import (
	"fmt"
	"slices"

	"brightset/catalog"
)

// pieces: every slot has a dear reproduction of its own, so that the set can
// always be filled out of the catalogue; the others are what lies on a bench.
func (m *maker) pieces() {
	for s := range m.st.Slots {
		fits := m.fits(s)
		m.add(s, fits, m.reproduction(s))
		n := m.f.Pieces - 1 + m.IntN(3) - 1
		for range n {
			m.add(s, fits, m.candidate(s))
		}
	}
}

// fits are the slots of the same part.
func (m *maker) fits(s int) []int {
	var out []int
	for k := range m.st.Slots {
		if m.st.Slots[k].Part == m.st.Slots[s].Part {
			out = append(out, k)
		}
	}
	return out
}

func (m *maker) add(s int, fits []int, p catalog.Piece) {
	p.ID = fmt.Sprintf("piece-%d", len(m.st.Pieces)+1)
	p.Name, p.Fits = p.ID, fits
	if m.chance(0.2) {
		p.Fits = []int{s}
	}
	p.From = catalog.Origin{Source: catalog.JobFile, File: "seeded", Line: len(m.st.Pieces) + 1}
	m.st.Pieces = append(m.st.Pieces, p)
}

// reproduction is as good as the mean asks, and of one series with the other
// reproductions of its match: a set of nothing else meets every rule but the
// budget.
func (m *maker) reproduction(s int) catalog.Piece {
	p := catalog.Piece{
		Kind: catalog.Reproduction, Side: catalog.Vendors, Vendor: m.IntN(m.f.Vendors), Bundle: catalog.None,
		Metal: m.IntN(len(m.st.Tables.Metals)), Quantity: 8, Price: m.between(140, 480), Chance: catalog.One,
		Grade: given(catalog.Centi(100 * (int(max(m.f.Mean, m.f.Floor, 78)) + m.IntN(9)))), Tone: given(catalog.Centi(m.IntN(200) - 50)),
	}
	if first, ok := m.series[s]; ok {
		p.Grade, p.Tone = m.st.Pieces[first].Grade, m.st.Pieces[first].Tone
	}
	for i := range m.st.Matches {
		if slices.Contains(m.st.Matches[i].Slots, s) {
			for _, k := range m.st.Matches[i].Slots {
				m.series[k] = len(m.st.Pieces)
			}
		}
	}
	return p
}

// candidate is a piece with faults: about half came off the object, the rest is
// what drawers hold and vendors offer. Unused old stock is the best of them, and
// is priced like it.
func (m *maker) candidate(s int) catalog.Piece {
	p := catalog.Piece{
		Kind: catalog.Original, Vendor: catalog.None, Bundle: catalog.None, Metal: m.IntN(len(m.st.Tables.Metals)),
		Quantity: m.st.Slots[s].Quantity, Chance: catalog.One,
	}
	switch v := m.Float64(); {
	case v < 0.5:
		if m.chance(0.3) {
			p.Value = m.between(5, 80)
		}
	case v < 0.7:
		p.Side, p.InShop = catalog.Shops, true
		p.Price = m.between(15, 110)
	default:
		m.offer(&p)
	}
	if m.chance(m.f.Leads) {
		p.Chance = catalog.Micro(300_000 + m.IntN(65)*10_000)
	}
	if p.Kind == catalog.OldStock && m.chance(0.8) {
		p.Grade = given(catalog.Centi(100 * (76 + m.IntN(20))))
		return p
	}
	m.findings(&p)
	if m.chance(m.f.Quotes) {
		m.quote(s, &p)
	}
	return p
}

func (m *maker) offer(p *catalog.Piece) {
	p.Side, p.Vendor, p.Price = catalog.Vendors, m.IntN(m.f.Vendors), m.between(30, 160)
	if m.chance(0.35) {
		p.Kind, p.Price = catalog.OldStock, m.between(110, 420)
	}
	if m.f.Bundles > 0 && m.chance(0.25) {
		p.Bundle = m.IntN(m.f.Bundles)
		p.Vendor, p.Price = m.st.Bundles[p.Bundle].Vendor, 0
	}
}

// findings: a used piece has two to four faults, seldom only light ones.
func (m *maker) findings(p *catalog.Piece) {
	for i := range 2 + m.IntN(3) {
		f := catalog.Finding{
			ID: fmt.Sprintf("%c", 'a'+i), Defect: m.IntN(len(m.st.Tables.Defects)), Severity: m.severity(),
			Extent: catalog.Micro(20_000 * (1 + m.IntN(25))), Count: 1 + m.IntN(3), Where: catalog.Face,
		}
		if m.chance(0.1) {
			f.Where = catalog.Back
		}
		p.Findings = append(p.Findings, f)
	}
}

func (m *maker) severity() catalog.Severity {
	switch v := m.Float64(); {
	case v < 0.4:
		return catalog.Light
	case v < 0.8:
		return catalog.Moderate
	}
	return catalog.Severe
}

func (m *maker) quote(s int, p *catalog.Piece) {
	for range 1 + m.IntN(2) {
		q := m.IntN(m.f.Platers)
		level := m.st.Platers[q].Levels[m.IntN(2)].Name
		p.Quotes = append(p.Quotes, catalog.Quote{
			ID: fmt.Sprintf("q%d", len(p.Quotes)+1), Plater: q, Work: catalog.WorkReplate, Level: level,
			Cost: m.between(45, 380), Firm: catalog.Estimate,
			Breakage: given(catalog.Micro(10_000 * m.IntN(15))), Refused: given(catalog.Micro(10_000 * m.IntN(6))),
			Grade: given(catalog.Centi(100 * (80 + m.IntN(17)))),
		})
	}
}
