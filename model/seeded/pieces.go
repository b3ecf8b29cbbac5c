package seeded

import (
	"fmt"

	"brightset/catalog"
)

// pieces: every slot has a dear reproduction, so that it can be filled; the
// others are what lies on a bench.
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

func (m *maker) reproduction(s int) catalog.Piece {
	return catalog.Piece{
		Kind: catalog.Reproduction, Side: catalog.Vendors, Vendor: m.IntN(m.f.Vendors), Bundle: catalog.None,
		Metal: m.IntN(len(m.st.Tables.Metals)), Quantity: 8, Price: m.between(90, 320), Chance: catalog.One,
		Grade: given(catalog.Centi(100 * (78 + m.IntN(14)))), Tone: given(catalog.Centi(m.IntN(200) - 50)),
	}
}

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
		p.Price = m.between(5, 90)
	default:
		p.Side, p.Vendor = catalog.Vendors, m.IntN(m.f.Vendors)
		p.Price = m.between(25, 220)
		if m.chance(0.4) {
			p.Kind = catalog.OldStock
		}
		if m.f.Bundles > 0 && m.chance(0.25) {
			p.Bundle = m.IntN(m.f.Bundles)
			p.Vendor, p.Price = m.st.Bundles[p.Bundle].Vendor, 0
		}
	}
	if m.chance(m.f.Leads) {
		p.Chance = catalog.Micro(300_000 + m.IntN(65)*10_000)
	}
	m.findings(&p)
	if m.chance(m.f.Quotes) {
		m.quote(s, &p)
	}
	return p
}

func (m *maker) findings(p *catalog.Piece) {
	if p.Kind == catalog.OldStock && m.chance(0.6) {
		p.Grade = given(catalog.Centi(100 * (75 + m.IntN(20))))
		return
	}
	for i := range 1 + m.IntN(3) {
		f := catalog.Finding{
			ID: fmt.Sprintf("%c", 'a'+i), Defect: m.IntN(len(m.st.Tables.Defects)), Severity: catalog.Severity(m.IntN(3) * m.IntN(2)),
			Extent: catalog.Micro(20_000 * (1 + m.IntN(20))), Count: 1 + m.IntN(3), Where: catalog.Face,
		}
		if m.chance(0.2) {
			f.Where = catalog.Back
		}
		p.Findings = append(p.Findings, f)
	}
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
